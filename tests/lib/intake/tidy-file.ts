import type { FileNames, Notice, Refusal, TidyBatch } from "../../../lib/intake/batch";
import type { Cell } from "../../../lib/intake/cells";
import { interpretCsv, interpretRows } from "../../../lib/intake/interpret";
import { emptyMapping, MAPPED_COLUMNS, type Mapping } from "../../../lib/intake/mapping";
import { type AcceptedRow, acceptedRows } from "../../../lib/intake/preview";
import type { InterpretOptions } from "../../../lib/intake/row-interpreter";
import { utc } from "../../../lib/intake/zone";

export const TIDY_HEADER =
  "piece,taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value,lot,fixture,tool,machine,gauge,operator,part_temp_c";
const ROW =
  "S0000001,2024-01-01T06:00:00Z,P-01,F001,104.81,104.51,105.11,mm,104.7956,L1-00001,FX-3,T-01,M-3,G-1,O-1,21.1";

/** A tidy row with some of its fields changed. */
export function tidyRow(changes: Record<string, string>): string {
  const columns = TIDY_HEADER.split(",");
  return ROW.split(",")
    .map((text, index) => changes[columns[index] ?? ""] ?? text)
    .join(",");
}

/** A mapping that takes every tidy column of the header by its own name. */
export function tidyMapping(header: string, changes: Partial<Mapping> = {}): Mapping {
  const mapping = { ...emptyMapping("tidy"), ...changes };
  const texts = header.trim().split(mapping.separator);
  mapping.columns = { ...mapping.columns };
  for (const column of MAPPED_COLUMNS) if (texts.includes(column)) mapping.columns[column] = { column };
  if (texts.includes("piece") && mapping.piece.length === 0) mapping.piece = ["piece"];
  return { ...mapping, columns: { ...mapping.columns, ...changes.columns } };
}

export type Taken = {
  rows: AcceptedRow[];
  refusals: Refusal[];
  notices: Notice[];
  batches: TidyBatch[];
  names: FileNames;
  counts: ReturnType<typeof interpretCsv>["counts"];
};

type Options = Partial<InterpretOptions> & { cuts?: readonly number[] };

function collector() {
  const refusals: Refusal[] = [];
  const notices: Notice[] = [];
  const batches: TidyBatch[] = [];
  const rows: AcceptedRow[] = [];
  return {
    refusals,
    notices,
    batches,
    rows,
    sink(names: () => FileNames) {
      return {
        batch(batch: TidyBatch) {
          batches.push(batch);
          rows.push(...acceptedRows(batch, names()));
        },
        refusal: (refusal: Refusal) => void refusals.push(refusal),
        notice: (notice: Notice) => void notices.push(notice),
      };
    },
  };
}

/** Interprets a CSV file given as lines, the header first. */
export function take(
  lines: readonly string[] | Uint8Array,
  changes: Partial<Mapping> = {},
  options: Options = {},
): Taken {
  const bytes = lines instanceof Uint8Array ? lines : new TextEncoder().encode(`${lines.join("\n")}\n`);
  const header = lines instanceof Uint8Array ? "" : (lines[0] ?? "");
  const { cuts = [], ...rest } = options;
  const { sink, ...found } = collector();
  const file = interpretCsv(
    tidyMapping(header, changes),
    { zone: utc, ...rest },
    sink(() => file.names),
  );
  const places = [0, ...cuts.map((cut) => Math.min(cut, bytes.length)).sort((a, b) => a - b), bytes.length];
  for (let i = 1; i < places.length; i++) file.push(bytes.slice(places[i - 1], places[i]));
  file.end();
  return { ...found, names: file.names, counts: file.counts };
}

/** Interprets the rows of a sheet, the header first, numbered from 1. */
export function takeCells(
  rows: readonly (readonly Cell[])[],
  changes: Partial<Mapping> = {},
  options: Options = {},
): Taken {
  const { cuts: _, ...rest } = options;
  const header = (rows[0] ?? []).map(String).join(",");
  const { sink, ...found } = collector();
  const sheet = interpretRows(
    tidyMapping(header, changes),
    { zone: utc, ...rest },
    sink(() => sheet.names),
  );
  for (const [index, cells] of rows.entries()) sheet.push(index + 1, cells);
  sheet.end();
  return { ...found, names: sheet.names, counts: sheet.counts };
}
