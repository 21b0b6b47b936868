import { hasAccounts } from "../../db/queries/accounts";
import { openPage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { SetUpForm } from "./set-up-form";

export const metadata = { title: "Set up" };

/**
 * Opened once, with the link that the terminal printed: makes the first account. The link's secret stays in the
 * browser until it is sent.
 */
export default async function SetUpPage() {
  await openPage("/set-up");
  const isOver = await hasAccounts(await database());
  return (
    <PageFrame
      title="The first account"
      purpose="It may add people and give them roles, and it has the engineer's rights to enter the control plan and take files in."
    >
      {isOver ? (
        <Note
          kind="refused"
          title="This link has ended"
          actions={<LinkButton href="/sign-in">Sign in</LinkButton>}
        >
          It works once, within a day, and a newer one takes its place. If nobody has an account yet, the
          command <code>npm run cli -- set-up</code> prints a new link in the terminal of the machine on which
          the program runs.
        </Note>
      ) : (
        <SetUpForm />
      )}
    </PageFrame>
  );
}
