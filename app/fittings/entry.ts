import type { Answer } from "./answer";

/**
 * What a form of several fields shows after it was sent: which are wrong and why, and all as they were typed.
 * `attempt` counts, so that the fields are drawn anew with what was typed.
 */
export type EntryAnswer<Fields> = Answer & {
  faults: Partial<Record<keyof Fields, string>>;
  fields: Fields;
  attempt: number;
};

/** Before anything was sent. */
export function unsent<Fields>(fields: Fields): EntryAnswer<Fields> {
  return { done: false, message: "", faults: {}, fields, attempt: 0 };
}

/** The two answers of an action to such a form: refused with what was typed, or saved. */
export function answersTo<Fields>(before: EntryAnswer<Fields>, fields: Fields) {
  const attempt = before.attempt + 1;
  return {
    refuse(message: string, faults: EntryAnswer<Fields>["faults"] = {}): EntryAnswer<Fields> {
      return { done: false, message, faults, fields, attempt };
    },
    /** `emptied` are the fields that begin anew after a save. */
    saved(message: string, emptied: Partial<Fields> = {}): EntryAnswer<Fields> {
      return { done: true, message, faults: {}, fields: { ...fields, ...emptied }, attempt };
    },
  };
}
