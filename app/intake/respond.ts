import "server-only";
import type { z } from "zod";
import { NotStored } from "../../db/connection";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { words } from "../language/language";
import { readLimited } from "../limited-body";
import { NotReceived } from "./uploads";

/** An answer that refuses, with the sentence the page shows. */
export function refuse(status: number, message: string): Response {
  return Response.json({ message }, { status });
}

/** The file has gone meanwhile. */
export async function gone(): Promise<Response> {
  return refuse(404, (await words()).intake.answers.gone);
}

/** The answer to a fault that is the file's or the disk's; anything else is thrown on. */
export async function answerTo(error: unknown): Promise<Response> {
  const { intake, storedTexts } = await words();
  if (error instanceof NotReceived) return refuse(error.status, storedTexts.say(error.message));
  if (error instanceof NotStored) return refuse(error.why === "busy" ? 503 : 507, error.digest);
  if (error instanceof UnreadableFile)
    return refuse(422, intake.answers.notStored(storedTexts.say(error.message)));
  throw error;
}

/** The body of a request in the shape of a schema, or the answer that says what is wrong with it. */
export async function bodyAs<T>(request: Request, schema: z.ZodType<T>): Promise<T | Response> {
  const limited = await readLimited(request);
  if (!limited.ok) return refuse(limited.status, (await words()).intake.answers.notSaved(limited.why));
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
