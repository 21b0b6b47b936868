import { z } from "zod";
import { MODEL_CHOICES, type ModelChoice } from "../../lib/capability/models/model";
import { typedNumber } from "../../lib/format/typed-number";
import { type ChosenWindow, chosenWindow, type WindowWords } from "./chosen-window";

/** What a capability page was asked for, all of it in its address, so that it can be passed on. */
export type Asked = {
  window: ChosenWindow;
  /** Why the window that was asked for is not the one shown. */
  windowFault: string | null;
  model: ModelChoice;
  /** The index to be shown, for planning; null for what the control plan asks for. */
  target: number | null;
  /** Standard deviation of the gauge as somebody typed it, in the unit of the feature; null takes the studied one. */
  gauge: number | null;
  /** Expanded uncertainty of a reading as typed; null takes twice the gauge's deviation. */
  uncertainty: number | null;
  /** What could not be taken, by field, with what was typed. */
  faults: Partial<Record<"target" | "gauge" | "uncertainty", { typed: string; why: string }>>;
};

type Address = Record<string, string | string[] | undefined>;

const positive = () =>
  z
    .string()
    .max(40)
    .transform((text, context) => {
      const value = typedNumber(text);
      if (value === null) return null;
      if (value === undefined || value <= 0) {
        context.addIssue({ code: "custom" });
        return z.NEVER;
      }
      return value;
    });

const FIELDS = { target: positive(), gauge: positive(), uncertainty: positive() } as const;

type AskedWords = WindowWords & { capability: { asked: Record<keyof typeof FIELDS, string> } };

const modelName = z.enum(MODEL_CHOICES).catch("normal");

/** Reads an address; what cannot be taken is left out and said. */
export function askedOf(address: Address, words: AskedWords): Asked {
  const faults: Asked["faults"] = {};
  const numberOf = (field: keyof typeof FIELDS): number | null => {
    const typed = address[field];
    if (typed === undefined) return null;
    const read = FIELDS[field].safeParse(typed);
    if (read.success) return read.data;
    faults[field] = { typed: String(typed).slice(0, 40), why: words.capability.asked[field] };
    return null;
  };
  const { window, fault: windowFault } = chosenWindow((name) => address[name], words);
  return {
    window,
    windowFault,
    model: modelName.parse(address.model ?? "normal"),
    target: numberOf("target"),
    gauge: numberOf("gauge"),
    uncertainty: numberOf("uncertainty"),
    faults,
  };
}

/** The query of an address that asks for this, without what is usual. */
export function queryOf(asked: Omit<Asked, "faults" | "windowFault">): string {
  return `?${paramsOf(asked)}`;
}

/** The same as names and values, for the hidden fields of a form. */
export function paramsOf({
  window,
  model,
  target,
  gauge,
  uncertainty,
}: Omit<Asked, "faults" | "windowFault">): URLSearchParams {
  const query = new URLSearchParams({ window: window.slug });
  if (model !== "normal") query.set("model", model);
  if (target !== null) query.set("target", String(target));
  if (gauge !== null) query.set("gauge", String(gauge));
  if (uncertainty !== null) query.set("uncertainty", String(uncertainty));
  return query;
}
