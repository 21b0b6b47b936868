import { LinkButton } from "./fittings/controls";
import { PageFrame } from "./fittings/page-frame";

export const metadata = { title: "Not here" };

export default function NotFound() {
  return (
    <PageFrame
      title="Nothing is at this address"
      purpose="The link may be old, or what it named was never entered. Nothing was lost by coming here."
      actions={
        <>
          <LinkButton href="/" kind="main">
            To the shift board
          </LinkButton>
          <LinkButton href="/features">Search the features</LinkButton>
        </>
      }
    >
      {null}
    </PageFrame>
  );
}
