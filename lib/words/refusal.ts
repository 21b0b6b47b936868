import { refusals } from "./en/refusals";

type Texts = typeof refusals;

export type RefusalCode = keyof Texts;

type Facts<Code extends RefusalCode> = Texts[Code] extends (...facts: infer Given) => string ? Given : [];

/** What names a refusal in whatever language: its text in lib/words and what fills it. Plain data. */
export type Refusal<Code extends RefusalCode = RefusalCode> = Code extends RefusalCode
  ? { code: Code; facts: Facts<Code> }
  : never;

/** A refusal as the answer of a command; `message` is for programs, the log and the command line, which speak English. */
export type Refused = { ok: false; message: string; refusal: Refusal };

/** Why something was not done: `refused("pieces-foreign")`, `refused("alarm-unknown", 12)`. */
export function refused<Code extends RefusalCode>(code: Code, ...facts: Facts<Code>): Refused {
  return refusedAs({ code, facts } as Refusal);
}

/** The same for a fault that a check has found. */
export function refusedAs(refusal: Refusal): Refused {
  return { ok: false, message: refusalIn({ refusals }, refusal), refusal };
}

/** The fault that a check has found, for `refusedAs`. */
export function fault<Code extends RefusalCode>(code: Code, ...facts: Facts<Code>): Refusal {
  return { code, facts } as Refusal;
}

/** A refusal in the language of the reader: refusalIn(await words(), saved.refusal). */
export function refusalIn(words: { refusals: Texts }, { code, facts }: Refusal): string {
  const text: string | ((...facts: never[]) => string) = words.refusals[code];
  return typeof text === "string" ? text : text(...(facts as never[]));
}
