import { z } from "zod";
import { MODEL_CHOICES, type ModelChoice } from "../../../lib/capability/models/model";
import { type ChosenWindow, chosenWindow, type WindowWords } from "../chosen-window";

/** What is asked to be stated, all of it in the address or the fields of a form. */
export type Draft = {
  part: number | null;
  window: ChosenWindow;
  /** Why the window that was asked for is not the one taken. */
  windowFault: string | null;
  /** Codes; empty for all. */
  lots: string[];
  /** Chosen features with their models; null when nothing was chosen yet. */
  features: { id: number; model: ModelChoice }[] | null;
  supersedes: number | null;
};

const number = z.coerce.number().int().positive();
const modelName = z.enum(MODEL_CHOICES).catch("normal");
const lotList = z
  .string()
  .max(4000)
  .transform((text) => [
    ...new Set(
      text
        .split(/[\s,;]+/)
        .map((code) => code.trim())
        .filter((code) => code !== ""),
    ),
  ]);

/** Reads an address or a form by one way: `all` gives every value of a name. */
export function draftOf(all: (name: string) => string[], words?: WindowWords): Draft {
  const one = (name: string) => all(name)[0];
  const idOf = (name: string) => {
    const read = number.safeParse(one(name));
    return read.success ? read.data : null;
  };
  const ids = all("f").flatMap((text) => {
    const read = number.safeParse(text);
    return read.success ? [read.data] : [];
  });
  const { window, fault: windowFault } = chosenWindow(one, words);
  const lots = lotList.safeParse(one("lots") ?? "");
  return {
    part: idOf("part"),
    window,
    windowFault,
    lots: lots.success ? lots.data : [],
    features:
      ids.length === 0 && one("chosen") === undefined
        ? null
        : [...new Set(ids)].map((id) => ({ id, model: modelName.parse(one(`m-${id}`)) })),
    supersedes: idOf("supersedes"),
  };
}

export function valuesOf(address: Record<string, string | string[] | undefined>): (name: string) => string[] {
  return (name) => {
    const value = address[name];
    return value === undefined ? [] : Array.isArray(value) ? value : [value];
  };
}

export function formValuesOf(form: FormData): (name: string) => string[] {
  return (name) => form.getAll(name).filter((value) => typeof value === "string");
}
