import type { MappedColumn } from "../../lib/intake/mapping";

/** A column of the tidy measurement file: how a page names it, and what it holds in one line. */
export type TidyColumn = { column: MappedColumn; label: string; holds: string };
export type TidyGroup = { legend: string; columns: readonly TidyColumn[] };

export const TIDY_GROUPS: readonly TidyGroup[] = [
  {
    legend: "What was measured",
    columns: [
      {
        column: "part",
        label: "Part",
        holds: "part number; without it the features go to part “unassigned”",
      },
      {
        column: "feature",
        label: "Feature",
        holds: "name of the characteristic, spelled alike in every file",
      },
      { column: "value", label: "Value", holds: "the measured value as a plain number" },
      { column: "unit", label: "Unit", holds: "mm, in or deg; without it the feature's own unit" },
      { column: "nominal", label: "Nominal", holds: "as on the drawing" },
      {
        column: "lower_tolerance",
        label: "Lower tolerance limit",
        holds: "the limit itself (24.98), not the deviation (−0.02)",
      },
      { column: "upper_tolerance", label: "Upper tolerance limit", holds: "the limit itself" },
    ],
  },
  {
    legend: "When and on what",
    columns: [
      {
        column: "taken_at",
        label: "Time",
        holds: "date and time in one column; without it the file's order",
      },
      { column: "lot", label: "Lot", holds: "lot, batch or heat" },
      { column: "subgroup", label: "Subgroup", holds: "label of the subgroup, when the sampling sets it" },
    ],
  },
  {
    legend: "Sources",
    columns: [
      { column: "fixture", label: "Fixture", holds: "fixture, pallet, nest or position" },
      { column: "tool", label: "Tool", holds: "cutting tool" },
      { column: "machine", label: "Machine", holds: "machine or spindle" },
      { column: "gauge", label: "Gauge", holds: "what it was measured with" },
      { column: "operator", label: "Operator", holds: "who measured, or ran the machine" },
      { column: "setup", label: "Setup", holds: "setup of a portable gauge" },
    ],
  },
  {
    legend: "Temperature",
    columns: [
      { column: "part_temp_c", label: "Part temperature", holds: "in °C when the piece was measured" },
      { column: "length", label: "Length that expands", holds: "in mm, for the reduction to 20 °C" },
      { column: "expansion", label: "Expansion coefficient", holds: "per kelvin, such as 0.0000115" },
    ],
  },
];

export const TIDY_COLUMNS: readonly TidyColumn[] = TIDY_GROUPS.flatMap(({ columns }) => columns);

/** The serial of the piece is made of one or more columns, so it is not among the others. */
export const PIECE_HOLDS = "serial number of the piece; several columns can be joined";

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
