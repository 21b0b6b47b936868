import { z } from "zod";
import { typedNumber } from "../../lib/format/typed-number";

/** A number typed into a field of a form, null where it is empty; `example` shows how one is written. */
export function numberField(example: string) {
  return z
    .string()
    .max(40)
    .transform((text, context) => {
      const value = typedNumber(text);
      if (value !== undefined) return value;
      context.addIssue({ code: "custom", message: `"${text}" is not a number. Write it like ${example}.` });
      return z.NEVER;
    });
}
