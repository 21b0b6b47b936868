import { LinkButton } from "./fittings/controls";
import { PageFrame } from "./fittings/page-frame";
import { words } from "./language/language";

export async function generateMetadata() {
  return { title: (await words()).frame.notHere.tab };
}

export default async function NotFound() {
  const { frame } = await words();
  const { notHere } = frame;
  return (
    <PageFrame
      title={notHere.title}
      purpose={notHere.purpose}
      actions={
        <>
          <LinkButton href="/" kind="main">
            {frame.toBoard}
          </LinkButton>
          <LinkButton href="/features">{notHere.search}</LinkButton>
        </>
      }
    >
      {null}
    </PageFrame>
  );
}
