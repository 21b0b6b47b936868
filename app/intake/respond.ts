import "server-only";
import type { z } from "zod";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { NotReceived } from "./uploads";

/** An answer that refuses, with the sentence the page shows. */
export function refuse(status: number, message: string): Response {
  return Response.json({ message }, { status });
}

export const GONE =
  "The file is no longer here: it was taken in, discarded, or not looked at for an hour. Drop it again.";

/** The answer to a fault that is the file's; anything else is thrown on. */
export function answerTo(error: unknown): Response {
  if (error instanceof NotReceived) return refuse(error.status, error.message);
  if (error instanceof UnreadableFile) return refuse(422, `Nothing stored: ${error.message}`);
  throw error;
}

const MOST_JSON_BYTES = 1024 * 1024;

/** The body of a request in the shape of a schema, or the answer that says what is wrong with it. */
export async function bodyAs<T>(request: Request, schema: z.ZodType<T>): Promise<T | Response> {
  if (Number(request.headers.get("content-length") ?? 0) > MOST_JSON_BYTES)
    return refuse(413, "Nothing saved: the request is too large.");
  const body: unknown = await request.json().catch(() => undefined);
  const parsed = schema.safeParse(body);
  if (parsed.success) return parsed.data;
  const [issue] = parsed.error.issues;
  return refuse(
    400,
    `Nothing saved: ${issue?.path.join(".") || "the request"}: ${issue?.message ?? "cannot be read"}.`,
  );
}
