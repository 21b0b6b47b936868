import type { MappedColumn } from "../../lib/intake/mapping";
import type { Words } from "../../lib/words/words";

/** The columns of the tidy measurement file, in the groups in which pages show them; their words are in lib/words. */
export const TIDY_GROUPS = [
  {
    group: "measured",
    columns: [
      "part",
      "feature",
      "value",
      "inspected",
      "unit",
      "nominal",
      "lower_tolerance",
      "upper_tolerance",
    ],
  },
  { group: "when", columns: ["taken_at", "lot", "subgroup"] },
  { group: "sources", columns: ["fixture", "tool", "machine", "gauge", "operator", "setup"] },
  { group: "temperature", columns: ["part_temp_c", "length", "expansion"] },
] as const satisfies readonly { group: string; columns: readonly MappedColumn[] }[];

/** How a page names a column of the tidy file; what is none stays as it is. */
export function columnLabel(field: string, { columns }: Words["desk"]["tidy"]): string {
  return field in columns ? columns[field as MappedColumn].label : field;
}

/** Columns that the wide layout states once for each of its value columns. */
export const PER_VALUE: readonly MappedColumn[] = [
  "feature",
  "value",
  "unit",
  "nominal",
  "lower_tolerance",
  "upper_tolerance",
];

export const SAMPLE_FILE = `${[
  "piece,taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value,lot,fixture,tool,gauge,operator",
  "0001,2026-03-02T06:10:00Z,P-100,Bore diameter,25,24.98,25.02,mm,25.003,L-1,FX-1,T-1,G-1,AB",
  "0001,2026-03-02T06:10:20Z,P-100,Bore depth,40,39.9,40.1,mm,40.012,L-1,FX-1,T-2,G-1,AB",
  "0002,2026-03-02T06:14:00Z,P-100,Bore diameter,25,24.98,25.02,mm,24.998,L-1,FX-2,T-1,G-1,AB",
  "0002,2026-03-02T06:14:20Z,P-100,Bore depth,40,39.9,40.1,mm,39.997,L-1,FX-2,T-2,G-1,AB",
].join("\n")}\n`;
