import { createHash } from "node:crypto";
import { z } from "zod";
import type { BenchFeature } from "../../../lib/intake/bench-cell";
import { mayStateInspected, readBenchCell, readInspectedCell } from "../../../lib/intake/bench-cell";
import type { TidyRow } from "../../../lib/intake/repeated-rows";
import type { ZoneOffset } from "../../../lib/intake/zone";
import type { Words } from "../../../lib/words/words";
import { SHEET_SOURCES } from "./sheet";

export type BenchAlarm = { id: number; feature: string; words: string };
export type BenchAnswer = { done: boolean; message: string; alarms: BenchAlarm[] };

const MINUTE_MS = 60_000;
const A_SECOND_MS = 1000;
/** What is wrong with a sheet, by the name of its sentence. */
type SheetFault = "long" | "noTime" | "many";
const says = (fault: SheetFault) => fault;

const name = z.string().max(200, says("long"));

/** What the browser sends; everything is read again here, whatever the page has checked. */
export const SHEET = z.object({
  part: z.number().int().positive(),
  draft: z.uuid(),
  /** The person says that values far outside their tolerance are what they read. */
  isSure: z.boolean(),
  at: z.string().regex(/^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?)?$/, says("noTime")),
  sources: z.object(
    Object.fromEntries(SHEET_SOURCES.map((source) => [source, name])) as Record<
      (typeof SHEET_SOURCES)[number],
      typeof name
    >,
  ),
  rows: z
    .array(
      z.object({
        piece: name,
        inspected: z.string().max(100).default(""),
        values: z.record(z.string().regex(/^\d+$/), z.string().max(100)),
      }),
    )
    .max(200, says("many")),
});
export type SentSheet = z.infer<typeof SHEET>;

export type SheetRead =
  | { ok: true; rows: TidyRow[]; digest: string }
  /** Why it cannot be stored, as the end of a sentence. */
  | { ok: false; why: string };

/**
 * A sheet as rows of the tidy file. Pieces follow each other by a second, in the order in which they stand, so
 * that a chart shows them in that order.
 */
export function rowsOfSheet(
  sheet: SentSheet,
  {
    part,
    features,
    zone,
    now,
    words: { bench, figures },
  }: {
    part: string;
    features: readonly BenchFeature[];
    zone: ZoneOffset;
    now: number;
    words: Pick<Words, "bench" | "figures">;
  },
): SheetRead {
  const { answers: said, sheet: sheetWords } = bench;
  const wall = sheet.at === "" ? null : Date.parse(`${sheet.at}Z`);
  if (wall !== null && Number.isNaN(wall)) return { ok: false, why: said.noSuchTime };
  const at = wall === null ? now : wall - MINUTE_MS * zone(wall);
  if (at > now + MINUTE_MS) return { ok: false, why: said.ahead };

  const rows: TidyRow[] = [];
  const seen = new Set<string>();
  const asks = features.some(mayStateInspected);
  for (const [index, { piece, inspected, values }] of sheet.rows.entries()) {
    const serial = piece.trim();
    const cells = features.map(
      (feature) =>
        [
          feature,
          readBenchCell(values[feature.id] ?? "", feature, { cells: sheetWords.cells, figures }, inspected),
        ] as const,
    );
    const size = readInspectedCell(asks ? inspected : "", sheetWords);
    const isMeasured = cells.some(([, { kind }]) => kind !== "empty");
    if (!isMeasured) continue;
    if (serial === "") return { ok: false, why: said.noPiece(index + 1) };
    if (seen.has(serial)) return { ok: false, why: said.twice(serial) };
    seen.add(serial);
    if (size.kind === "fault")
      return { ok: false, why: said.inRow(index + 1, sheetWords.inspected, size.words) };
    for (const [feature, cell] of cells) {
      if (cell.kind === "empty") continue;
      if (cell.kind === "fault") return { ok: false, why: said.inRow(index + 1, feature.name, cell.words) };
      if (cell.kind === "far" && !sheet.isSure)
        return { ok: false, why: said.unsure(said.inRow(index + 1, feature.name, cell.words)) };
      rows.push({
        line: index + 1,
        cells: {
          piece: serial,
          taken_at: new Date(at + index * A_SECOND_MS).toISOString(),
          part,
          feature: feature.name,
          value: cell.value,
          inspected: mayStateInspected(feature) && "value" in size ? size.value : null,
          unit: feature.unit === "none" ? null : feature.unit,
          ...stated(sheet.sources),
        },
      });
    }
  }
  if (rows.length === 0) return { ok: false, why: said.nothing };
  return { ok: true, rows, digest: createHash("sha256").update(`bench ${sheet.draft}`).digest("hex") };
}

function stated(sources: SentSheet["sources"]) {
  return Object.fromEntries(
    Object.entries(sources).map(([source, text]) => [source, text.trim() === "" ? null : text.trim()]),
  );
}
