import { z } from "zod";
import type { Posted } from "../../../../db/intake/post-measurements";
import type { Refusal } from "../../../../lib/intake/batch";
import type { TidyRow } from "../../../../lib/intake/repeated-rows";

/*
 * The body of a posted request, in the columns of the tidy file. One piece, or {"pieces": [ … ]}:
 *
 *   { "piece": "0001", "taken_at": "2026-03-02T06:10:00Z", "part": "P-100", "lot": "L-1", "fixture": "FX-1",
 *     "measurements": [
 *       { "feature": "Bore diameter", "value": 25.003, "unit": "mm", "nominal": 25,
 *         "lower_tolerance": 24.98, "upper_tolerance": 25.02 },
 *       { "feature": "Bore depth", "value": 40.012, "tool": "T-2" } ] }
 *
 * What stands beside the measurements holds for all of them; a measurement's own word wins. The envelope must
 * be right as a whole; below it each piece and each measurement is looked at by itself, so that a bad one is
 * refused and the others are taken.
 */

export const MOST_MEASUREMENTS = 5000;

const text = z
  .string({ error: "must be a text in quotes" })
  .max(200, "has more than 200 characters")
  .nullish();
const number = z.number({ error: "must be a number" }).nullish();

const SHARED = {
  piece: text,
  taken_at: z.string({ error: "must be a text such as “2026-03-02T06:10:00Z”" }).max(64).nullish(),
  part: text,
  lot: text,
  fixture: text,
  tool: text,
  machine: text,
  gauge: text,
  operator: text,
  setup: text,
  part_temp_c: number,
  /** On how many pieces or units counts were found. */
  inspected: number,
  subgroup: text,
};
const OWN = {
  feature: text,
  value: number,
  unit: text,
  nominal: number,
  lower_tolerance: number,
  upper_tolerance: number,
  length: number,
  expansion: number,
};

const MEASUREMENT = z.strictObject({ ...SHARED, ...OWN });
const PIECE = z.strictObject({ ...SHARED, measurements: z.array(z.unknown()) });
const PIECES = z.strictObject({ pieces: z.array(z.unknown()).min(1, "holds no piece") });
const KNOWN = [...Object.keys(SHARED), ...Object.keys(OWN)];
const LONGEST_RAW = 2000;

export type ReadBody =
  | { ok: true; posted: Posted }
  /** The request as a whole cannot be read. */
  | { ok: false; path: string; reason: string };

/** Takes a request's body apart; measurements that cannot be read are among the refusals. */
export function readBody(body: unknown): ReadBody {
  if (typeof body !== "object" || body === null || Array.isArray(body))
    return fault("", "the body must be one piece as a JSON object, or {“pieces”: [ … ]}.");
  const isMany = "pieces" in body;
  if (!isMany && !("measurements" in body))
    return fault("", "the body has neither “measurements” (one piece) nor “pieces” (several).");
  if (isMany) {
    const envelope = PIECES.safeParse(body);
    if (!envelope.success) return fault(...firstIssue(envelope.error, "", ["pieces"]));
  }
  const pieces = isMany ? (body.pieces as unknown[]) : [body];

  const posted = { rows: [], refusals: [], paths: [] } as Mutable<Posted>;
  for (const [index, each] of pieces.entries()) {
    const base = isMany ? `pieces[${index}]` : "";
    // What cannot be read counts as well: a million broken pieces in two megabytes took six seconds to refuse.
    if (posted.paths.length >= MOST_MEASUREMENTS) return tooMany(base);
    const piece = PIECE.safeParse(each);
    if (!piece.success) {
      refuse(posted, { base, each, ...issueOf(piece.error, base, [...Object.keys(SHARED), "measurements"]) });
      continue;
    }
    const { measurements, ...shared } = piece.data;
    if (measurements.length === 0)
      refuse(posted, { base, each, field: "measurements", reason: "The piece has no measurement." });
    for (const [at, one] of measurements.entries()) {
      const path = `${dotted(base)}measurements[${at}]`;
      if (posted.paths.length >= MOST_MEASUREMENTS) return tooMany(path);
      addMeasurement(posted, { path, shared, one });
    }
  }
  return { ok: true, posted };
}

type Mutable<T> = { -readonly [K in keyof T]: T[K] extends readonly (infer E)[] ? E[] : T[K] };

function addMeasurement(
  posted: Mutable<Posted>,
  { path, shared, one }: { path: string; shared: TidyRow["cells"]; one: unknown },
): void {
  const read = MEASUREMENT.safeParse(one);
  if (!read.success) {
    refuse(posted, { base: path, each: one, ...issueOf(read.error, path, KNOWN) });
    return;
  }
  // A field that is null says nothing, and what holds for the piece goes on holding.
  posted.rows.push({ line: posted.paths.push(path), cells: read.data, shared });
}

function refuse(
  posted: Mutable<Posted>,
  { base, each, field, reason }: { base: string; each: unknown; field: string; reason: string },
): void {
  const line = posted.paths.push(base);
  posted.refusals.push({ line, field, reason, raw: rawOf(each) } satisfies Refusal);
}

/** As it was sent, in so far as it can be shown: brackets in brackets without end cannot. */
function rawOf(each: unknown): string {
  try {
    return (JSON.stringify(each) ?? "").slice(0, LONGEST_RAW);
  } catch {
    return "nested too deeply to be shown";
  }
}

function issueOf(
  error: z.ZodError,
  base: string,
  known: readonly string[],
): { field: string; reason: string } {
  const [path, reason] = firstIssue(error, base, known);
  const field = path.slice(base.length).replace(/^\./, "");
  return { field: field === "" ? "row" : field, reason: `${reason[0]?.toUpperCase()}${reason.slice(1)}` };
}

/** The first thing wrong, with its place: "pieces[0].lot" and "must be a text in quotes". */
function firstIssue(error: z.ZodError, base: string, known: readonly string[]): [string, string] {
  const issue = error.issues[0];
  if (issue?.code === "unrecognized_keys") {
    const [key = ""] = issue.keys;
    return [
      `${dotted(base)}${key.slice(0, 100)}`,
      `“${key.slice(0, 100)}” is no field here. Known are ${known.join(", ")}.`,
    ];
  }
  const at = (issue?.path ?? []).map((step) => (typeof step === "number" ? `[${step}]` : `.${String(step)}`));
  const path = `${base}${at.join("")}`.replace(/^\./, "");
  const field = issue?.path.at(-1);
  const says =
    issue?.code === "invalid_type" && field === undefined ? "must be an object in braces" : issue?.message;
  return [path, `${field === undefined ? "it" : `“${String(field)}”`} ${says}.`];
}

function fault(path: string, reason: string): ReadBody {
  return { ok: false, path, reason };
}

const tooMany = (path: string) =>
  fault(path, `a request holds at most ${MOST_MEASUREMENTS} measurements. Send the rest in another.`);

const dotted = (base: string) => (base === "" ? "" : `${base}.`);
