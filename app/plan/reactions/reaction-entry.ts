import { z } from "zod";
import type { PlanOwner } from "../../../db/queries/reaction-plans";
import type { Words } from "../../../lib/words/words";
import type { EntryAnswer } from "../../fittings/entry";

export type ReactionFields = Record<"steps" | "verify" | "reason", string>;
export type ReactionFaults = Partial<ReactionFields>;

export type ReactionAnswer = EntryAnswer<ReactionFields>;

export type ReactionEntry = {
  owner: PlanOwner;
  before: number;
  steps: string[];
  verifySubgroups: number;
  reason: string;
};

const LONGEST_STEP = 300;
const MOST_STEPS = 20;

type FaultWords = Words["reactionPlans"]["faults"];

const fieldsIn = (said: FaultWords) =>
  z.object({
    steps: z
      .string()
      .transform((text) =>
        text
          .split(/\r?\n/)
          .map((line) => line.trim())
          .filter((line) => line !== ""),
      )
      .refine((steps) => steps.length > 0, said.noStep)
      .refine((steps) => steps.length <= MOST_STEPS, said.manySteps(MOST_STEPS))
      .refine((steps) => steps.every((step) => step.length <= LONGEST_STEP), said.longStep(LONGEST_STEP)),
    verify: z.coerce.number(said.verify).int(said.verify).min(1, said.verifyLeast).max(50, said.verifyMost),
    reason: z.string().trim().max(500, said.long(500)),
  });

const id = z.coerce.number().int().positive();
const OWNER = z.union([z.object({ feature: id }), z.object({ part: id })]);

export type ReadReactions = { fields: ReactionFields } & (
  | { ok: true; entry: ReactionEntry }
  | { ok: false; faults: ReactionFaults }
);

/** One step a line; the button "take back" sends none. */
export function readReactionForm(form: FormData, said: FaultWords): ReadReactions {
  const text = (name: string) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
  const fields = { steps: text("steps"), verify: text("verify"), reason: text("reason") };
  const isTakenBack = text("do") === "take back";
  const read = fieldsIn(said).safeParse(isTakenBack ? { ...fields, steps: "none" } : fields);
  const owner = OWNER.safeParse(Object.fromEntries(form));
  const before = z.coerce.number().int().nonnegative().safeParse(text("before"));
  if (read.success && owner.success && before.success) {
    return {
      ok: true,
      fields,
      entry: {
        owner: "feature" in owner.data ? { featureId: owner.data.feature } : { partId: owner.data.part },
        before: before.data,
        steps: isTakenBack ? [] : read.data.steps,
        verifySubgroups: read.data.verify,
        reason: read.data.reason,
      },
    };
  }
  const faults: ReactionFaults = {};
  for (const { path, message } of read.error?.issues ?? [])
    faults[path[0] as keyof ReactionFields] ??= message;
  if (read.success) faults.steps = said.incomplete;
  return { ok: false, fields, faults };
}
