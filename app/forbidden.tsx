import { ROLE_WORDS } from "../lib/people/roles";
import { LinkButton } from "./fittings/controls";
import { PageFrame } from "./fittings/page-frame";
import { signedIn } from "./session";

export const metadata = { title: "Not for your role" };

/** Signed in, but without the role that this page takes. */
export default async function Forbidden() {
  const person = await signedIn();
  const roles = person?.roles.map((role) => ROLE_WORDS[role]).join(", ") || "no role";
  return (
    <PageFrame
      title="This page is not for your role"
      purpose={`You are signed in as ${person?.name ?? "nobody"} (${roles}). Nothing was shown or changed. An admin can give you the role it takes, or you can sign in with another account.`}
      actions={
        <>
          <LinkButton href="/" kind="main">
            To the shift board
          </LinkButton>
          <LinkButton href="/sign-in">Sign in as somebody else</LinkButton>
        </>
      }
    >
      {null}
    </PageFrame>
  );
}
