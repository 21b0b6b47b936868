import { LinkButton } from "./fittings/controls";
import { PageFrame } from "./fittings/page-frame";
import { words } from "./language/language";
import { signedIn } from "./session";

export async function generateMetadata() {
  return { title: (await words()).frame.notYours.tab };
}

/** Signed in, but without the role that this page takes. */
export default async function Forbidden() {
  const person = await signedIn();
  const { frame, trade } = await words();
  const { notYours } = frame;
  const roles = person?.roles.map((role) => trade.roles[role]).join(", ") || notYours.noRole;
  return (
    <PageFrame
      title={notYours.title}
      purpose={notYours.purpose(person?.name ?? trade.nobody, roles)}
      actions={
        <>
          <LinkButton href="/" kind="main">
            {frame.toBoard}
          </LinkButton>
          <LinkButton href="/sign-in">{notYours.another}</LinkButton>
        </>
      }
    >
      {null}
    </PageFrame>
  );
}
