"use server";

import { revalidatePath } from "next/cache";
import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { z } from "zod";
import { revokeShare, SHARE_DAYS, shareStatement } from "../../../db/commands/statements";
import { statementById } from "../../../db/queries/statements";
import { recomputedWords } from "../../../lib/statement/compare";
import { refusalIn } from "../../../lib/words/refusal";
import { type Asker, requireAction } from "../../access";
import { database } from "../../database";
import { askWorker, unlessGivenUp } from "../../jobs/ask-worker";
import type { Ticket } from "../../jobs/awaited";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { CONFIDENCE } from "../studied";
import { studyWindow } from "../study-window";
import type { RecomputeAnswer, RevokeAnswer, ShareAnswer, SignAnswer } from "./answers";
import { draftOf, formValuesOf } from "./draft";

const WITHIN_MS = 300_000;
const DAY = 86_400_000;

const textOf = (form: FormData, name: string) => {
  const value = form.get(name);
  return typeof value === "string" ? value.trim() : "";
};

/** Freezes what the form asks for under the name of whoever sends it, and opens it. */
export async function signStatement(_before: SignAnswer, form: FormData): Promise<SignAnswer> {
  const asker = await requireAction("signStatement");
  const title = textOf(form, "title");
  const refuse = (message: string): SignAnswer => ({ done: false, message, title });
  if (!asker.ok) return refuse(asker.message);
  const said = await words();
  const { answers } = said.statements;
  // What is signed is English, whoever signs.
  const draft = draftOf(formValuesOf(form));
  if (title === "" || title.length > 200) {
    return refuse(answers.title);
  }
  if (draft.part === null || draft.features === null) {
    return refuse(answers.chooseFirst);
  }
  if (form.get("sign") !== "yes") {
    return refuse(answers.tick);
  }
  if (draft.windowFault !== null) return refuse(answers.window);
  const { now, zone } = await plant();
  const { from, to } = studyWindow(draft.window, { now, zone });
  const db = await database();
  const answer = await unlessGivenUp(
    askWorker(
      {
        kind: "freeze",
        draft: {
          partId: draft.part,
          title,
          windowWords: draft.window.words,
          from,
          // Bounded also where all measurements are asked for: what comes later is not signed.
          to: to ?? now,
          lots: draft.lots.length === 0 ? null : draft.lots,
          confidence: CONFIDENCE,
          features: draft.features,
          supersedes: draft.supersedes,
        },
        actor: asker.actor,
      },
      { databasePath: db.path, withinMs: WITHIN_MS, ticket: ticketOf(form, asker) },
    ),
  );
  if (answer === null) return refuse(answers.givenUp);
  const { frozen } = answer;
  if (!frozen.ok) return refuse(refusalIn(said, frozen.refusal));
  revalidatePath("/capability", "layout");
  redirect(`/capability/statements/${frozen.id}`);
}

/** Computes a statement once more and says whether it comes out the same. */
export async function recomputeSigned(_before: RecomputeAnswer, form: FormData): Promise<RecomputeAnswer> {
  const asker = await requireAction("recomputeSigned");
  if (!asker.ok) return { done: false, message: asker.message, features: [] };
  const id = z.coerce.number().int().positive().safeParse(form.get("statement"));
  const { statements, language } = await words();
  const { answers } = statements;
  const not = (message: string) => ({ done: false, message, features: [] });
  const db = await database();
  const statement = id.success ? await statementById(db, id.data) : null;
  if (!statement) return not(answers.notRecomputed);
  const answer = await unlessGivenUp(
    askWorker(
      { kind: "recompute", statementId: statement.id, language },
      { databasePath: db.path, withinMs: WITHIN_MS, ticket: ticketOf(form, asker) },
    ),
  );
  if (answer === null) return not(answers.recomputeGivenUp);
  const { features, computedBy } = answer;
  if (features === null) return not(answers.notRecomputed);
  const isSame = features.every(({ sameData, sameFigures }) => sameData && sameFigures);
  const message = recomputedWords(
    features,
    { signed: statement.content.software, now: computedBy },
    statements,
  );
  return { done: isSame, message, features };
}

/** Under which name the page asks how far the work has come. */
function ticketOf(form: FormData, { person }: Asker): Ticket | null {
  const name = textOf(form, "ticket");
  return name === "" || name.length > 100 ? null : { name, accountId: person.id };
}

const ShareForm = z.object({
  statement: z.coerce.number().int().positive(),
  recipient: z.string().trim().min(1).max(200),
  days: z.coerce.number().int().min(SHARE_DAYS.least).max(SHARE_DAYS.most),
});

/** Makes a link to a statement; the answer is the only place where it is ever shown. */
export async function shareSigned(_before: ShareAnswer, form: FormData): Promise<ShareAnswer> {
  const asker = await requireAction("shareSigned");
  const recipient = textOf(form, "recipient");
  const refuse = (message: string): ShareAnswer => ({ done: false, message, link: null, recipient });
  if (!asker.ok) return refuse(asker.message);
  const read = ShareForm.safeParse(Object.fromEntries(form));
  const said = await words();
  const { answers } = said.statements;
  if (!read.success) {
    const field = read.error.issues[0]?.path[0];
    if (field === "recipient") return refuse(answers.recipient);
    return refuse(field === "days" ? answers.days(SHARE_DAYS.least, SHARE_DAYS.most) : answers.notWhole);
  }
  const { statement, days } = read.data;
  const saved = await shareStatement(await database(), {
    statementId: statement,
    recipient: read.data.recipient,
    // Links live by the real clock, also in a demo that stands still.
    expiresAt: Date.now() + days * DAY,
    actor: asker.actor,
  });
  if (!saved.ok) return refuse(refusalIn(said, saved.refusal));
  revalidatePath(`/capability/statements/${statement}`);
  return {
    done: true,
    message: answers.linkMade,
    link: `${await origin()}/statement/${saved.token}`,
    recipient: "",
  };
}

/** Ends a link at once. */
export async function revokeLink(_before: RevokeAnswer, form: FormData): Promise<RevokeAnswer> {
  const asker = await requireAction("revokeLink");
  if (!asker.ok) return { done: false, message: asker.message };
  const id = z.coerce.number().int().positive().safeParse(form.get("share"));
  const said = await words();
  const { answers } = said.statements;
  if (!id.success) return { done: false, message: answers.whichLink };
  const saved = await revokeShare(await database(), { id: id.data, actor: asker.actor });
  if (!saved.ok) return { done: false, message: refusalIn(said, saved.refusal) };
  revalidatePath(`/capability/statements/${saved.statementId}`);
  return { done: true, message: answers.linkEnded };
}

/** As the browser sees this server. */
async function origin(): Promise<string> {
  const asked = await headers();
  const host = asked.get("x-forwarded-host") ?? asked.get("host") ?? "";
  const protocol = asked.get("x-forwarded-proto")?.split(",")[0]?.trim() ?? "http";
  return `${protocol}://${host}`;
}
