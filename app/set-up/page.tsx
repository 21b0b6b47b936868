import { mayBeSetUp } from "../../db/queries/accounts";
import { openPage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { SetUpForm } from "./set-up-form";

export const metadata = { title: "Set up" };

/** Opened once, with the link that the terminal printed: makes the first account. */
export default async function SetUpPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  await openPage("/set-up");
  const { token } = await searchParams;
  const isValid = typeof token === "string" && (await mayBeSetUp(await database(), token));
  return (
    <PageFrame
      title="The first account"
      purpose="It may add people and give them roles, and it has the engineer's rights to enter the control plan and take files in."
    >
      {isValid ? (
        <SetUpForm token={token} />
      ) : (
        <Note
          kind="refused"
          title="This link has ended"
          actions={<LinkButton href="/sign-in">Sign in</LinkButton>}
        >
          It works once, and a newer one takes its place. If nobody has an account yet, the command{" "}
          <code>npm run cli -- set-up</code> prints a new link in the terminal of the machine on which the
          program runs.
        </Note>
      )}
    </PageFrame>
  );
}
