import { z } from "zod";
import { typedNumber } from "../../lib/format/typed-number";
import type { CommonWords } from "../../lib/words/common";

/** A number typed into a field of a form, null where it is empty; `example` shows how one is written. */
export function numberField(example: string, { notNumber }: Pick<CommonWords["fittings"], "notNumber">) {
  return z
    .string()
    .max(40)
    .transform((text, context) => {
      const value = typedNumber(text);
      if (value !== undefined) return value;
      context.addIssue({ code: "custom", message: notNumber(text, example) });
      return z.NEVER;
    });
}
