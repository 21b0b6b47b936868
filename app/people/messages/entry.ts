import { z } from "zod";
import type { TargetKind } from "../../../db/queries/messages";

export type TargetFields = { kind: TargetKind; name: string; address: string };

/** `secret` stands only in the answer that made it. */
export type TargetAnswer = {
  done: boolean;
  message: string;
  secret: string | null;
  fields: TargetFields;
  attempt: number;
};

export const TARGET_FORM = z.object({
  kind: z.enum(["webhook", "mail"]),
  name: z.string().trim().max(80),
  address: z.string().trim().max(500),
});

/** What is wrong with a field, the page's words say by its name. */
export const MAIL_FORM = z.object({
  host: z
    .string()
    .trim()
    .regex(/^[a-z0-9.:-]{1,253}$/i),
  port: z.coerce.number().int().min(1).max(65_535),
  secure: z.literal("on").nullable(),
  user: z.string().trim().max(200),
  password: z.string().max(500),
  from: z.string().trim().max(200).refine(isMailAddress),
});

/** Good enough to tell a slip of the finger; whether it exists, the trial message tells. */
export function isMailAddress(text: string): boolean {
  return /^[^\s@<>,;"]{1,64}@[^\s@<>,;"]{1,253}$/.test(text);
}
