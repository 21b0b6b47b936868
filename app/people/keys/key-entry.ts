import { z } from "zod";
import { SCOPES, type Scope } from "../../../lib/people/scopes";

export type KeyFields = { name: string; scopes: Scope[]; days: string };

/** What the form shows after it was sent; `secret` only in the one answer that made the key. */
export type KeyAnswer = {
  done: boolean;
  message: string;
  secret: string | null;
  fields: KeyFields;
  attempt: number;
};

/** How long a key lasts, in days; "never" for a machine that nobody visits. */
export const LASTING = ["90", "365", "1095", "never"] as const;

const FORM = z.object({
  name: z.string().max(200),
  scopes: z.array(z.enum(SCOPES)),
  days: z.enum(LASTING),
});

/** What a form says, or null when it is not this form. */
export function readKeyForm(form: FormData): KeyFields | null {
  const read = FORM.safeParse({
    name: form.get("name"),
    scopes: form.getAll("scope"),
    days: form.get("days"),
  });
  return read.success ? read.data : null;
}
