import { hasAccounts } from "../../db/queries/accounts";
import { openPage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { Filled } from "../fittings/filled";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { words } from "../language/language";
import { SetUpForm } from "./set-up-form";

export async function generateMetadata() {
  return { title: (await words()).welcome.setUp.tab };
}

/**
 * Opened once, with the link that the terminal printed: makes the first account. The link's secret stays in the
 * browser until it is sent.
 */
export default async function SetUpPage() {
  await openPage("/set-up");
  const { setUp: said } = (await words()).welcome;
  const isOver = await hasAccounts(await database());
  return (
    <PageFrame title={said.title} purpose={said.purpose}>
      {isOver ? (
        <Note
          kind="refused"
          title={said.ended}
          actions={<LinkButton href="/sign-in">{said.signIn}</LinkButton>}
        >
          <Filled text={said.endedWhy} holes={{ command: <code>npm run cli -- set-up</code> }} />
        </Note>
      ) : (
        <SetUpForm words={said.form} />
      )}
    </PageFrame>
  );
}
