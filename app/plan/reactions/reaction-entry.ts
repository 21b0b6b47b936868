import { z } from "zod";
import type { PlanOwner } from "../../../db/queries/reaction-plans";
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

const FIELDS = z.object({
  steps: z
    .string()
    .transform((text) =>
      text
        .split(/\r?\n/)
        .map((line) => line.trim())
        .filter((line) => line !== ""),
    )
    .refine((steps) => steps.length > 0, "Write at least one step, or take the plan back.")
    .refine(
      (steps) => steps.length <= MOST_STEPS,
      `At most ${MOST_STEPS} steps: a person at the line has minutes.`,
    )
    .refine(
      (steps) => steps.every((step) => step.length <= LONGEST_STEP),
      `A step has at most ${LONGEST_STEP} characters.`,
    ),
  verify: z.coerce
    .number("Write a whole number from 1 to 50.")
    .int("Write a whole number from 1 to 50.")
    .min(1, "At least 1.")
    .max(50, "At most 50."),
  reason: z.string().trim().max(500, "At most 500 characters."),
});

const id = z.coerce.number().int().positive();
const OWNER = z.union([z.object({ feature: id }), z.object({ part: id })]);

export type ReadReactions = { fields: ReactionFields } & (
  | { ok: true; entry: ReactionEntry }
  | { ok: false; faults: ReactionFaults }
);

/** One step a line; the button "take back" sends none. */
export function readReactionForm(form: FormData): ReadReactions {
  const text = (name: string) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
  const fields = { steps: text("steps"), verify: text("verify"), reason: text("reason") };
  const isTakenBack = text("do") === "take back";
  const read = FIELDS.safeParse(isTakenBack ? { ...fields, steps: "none" } : fields);
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
  if (read.success) faults.steps = "This form was not complete. Reload the page and try again.";
  return { ok: false, fields, faults };
}
