import "server-only";
import { z } from "zod";
import { type Statement, statementById } from "../../../db/queries/statements";
import { partName } from "../../../lib/format/names";
import { database } from "../../database";
import { askWorker, unlessGivenUp } from "../../jobs/ask-worker";
import type { SheetForm } from "../../jobs/task";
import { language } from "../../language/language";

const WITHIN_MS = 120_000;

export const sheetForm = z.enum(["a4", "letter", "xlsx", "csv"]);

const TYPES: Record<SheetForm, string> = {
  a4: "application/pdf",
  letter: "application/pdf",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
  csv: "text/csv; charset=utf-8",
};

/** Every form in which a statement can be had. */
export const SHEET_FORMS: readonly SheetForm[] = ["a4", "letter", "xlsx", "csv"];

/** A statement's file, made in a thread of its own that ends with the request; null when there is no such statement. */
export async function sheetFile(
  id: number,
  form: SheetForm,
  { signal }: { signal: AbortSignal },
): Promise<Response | null> {
  const db = await database();
  const statement = await statementById(db, id);
  if (!statement) return null;
  const made = await unlessGivenUp(
    askWorker(
      { kind: "sheet", statementId: id, form, language: await language() },
      { databasePath: db.path, withinMs: WITHIN_MS, signal },
    ),
  );
  if (!made?.bytes) return null;
  const { bytes } = made;
  return new Response(Uint8Array.from(bytes), {
    headers: {
      "content-type": TYPES[form],
      "content-disposition": `attachment; filename="${fileName(statement, form)}"`,
      "cache-control": "private, no-store",
    },
  });
}

/** Letters that every file system takes. */
function fileName({ id, part }: Statement, form: SheetForm): string {
  const name = partName(part).replace(/[^A-Za-z0-9-]+/g, "-");
  const ending = form === "a4" || form === "letter" ? `${form}.pdf` : form;
  return `capability-${name}-statement-${id}${ending.includes(".") ? "-" : "."}${ending}`;
}
