import "server-only";
import type { z } from "zod";
import { NotStored } from "../../db/connection";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { readLimited } from "../limited-body";
import { NotReceived } from "./uploads";

/** An answer that refuses, with the sentence the page shows. */
export function refuse(status: number, message: string): Response {
  return Response.json({ message }, { status });
}

export const GONE =
  "The file is no longer here: it was taken in, discarded, or not looked at for an hour. Drop it again.";

/** The answer to a fault that is the file's or the disk's; anything else is thrown on. */
export function answerTo(error: unknown): Response {
  if (error instanceof NotReceived) return refuse(error.status, error.message);
  if (error instanceof NotStored) return refuse(507, error.digest);
  if (error instanceof UnreadableFile) return refuse(422, `Nothing stored: ${error.message}`);
  throw error;
}

/** The body of a request in the shape of a schema, or the answer that says what is wrong with it. */
export async function bodyAs<T>(request: Request, schema: z.ZodType<T>): Promise<T | Response> {
  const limited = await readLimited(request);
  if (!limited.ok) return refuse(limited.status, `Nothing saved: ${limited.why}`);
  const parsed = schema.safeParse(jsonOf(limited.text));
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  return refuse(
    400,
    `Nothing saved: ${issue?.path.join(".") || "the request"}: ${issue?.message ?? "cannot be read"}.`,
  );
}

function jsonOf(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
