import { z } from "zod";
import type { StudyEntry } from "../../db/commands/gauges";
import type { FeatureRow } from "../../db/queries/features";
import { gaugedWidth } from "../../lib/measurement-systems/gauge-share";
import { STUDY_KINDS } from "../../lib/measurement-systems/study-data";
import { readStudyTable, type TableFault, type TableRow } from "../../lib/measurement-systems/study-table";
import { UNITS } from "../../lib/plan/feature-plan";
import { numberField } from "../fittings/number-field";
import { dayField, type EntryWords } from "./gauge-entry";

export type StudyFields = {
  kind: string;
  /** Id of the feature it was made on, or empty. */
  feature: string;
  unit: string;
  width: string;
  reference: string;
  madeOn: string;
  note: string;
  table: string;
};

export type StudyFaults = Partial<Record<keyof StudyFields, string>>;

/** What the form shows after it was sent; `attempt` counts, so that fields show what was typed. */
export type StudyAnswer = {
  done: boolean;
  message: string;
  faults: StudyFaults;
  tableFaults: TableFault[];
  fields: StudyFields;
  attempt: number;
};

/** Of every interval of a study: what the trade states unless told otherwise. */
export const STUDY_CONFIDENCE = 0.95;

function fieldsIn({ studyForm: { faults: said }, gauges, fittings }: EntryWords) {
  const number = numberField("12.345", fittings);
  return z.object({
    kind: z.enum(STUDY_KINDS, { error: said.kind }),
    unit: z.enum(UNITS, { error: said.unit }),
    width: number.refine((value) => value === null || value > 0, said.width),
    reference: number,
    madeOn: dayField(gauges.faults),
    note: z.string().trim().max(1000, gauges.faults.atMost(1000)),
  });
}

export function fieldsOfStudyForm(form: FormData): StudyFields {
  const text = (name: keyof StudyFields) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
  return {
    kind: text("kind"),
    feature: text("feature"),
    unit: text("unit"),
    width: text("width"),
    reference: text("reference"),
    madeOn: text("madeOn"),
    note: text("note"),
    table: text("table"),
  };
}

export type ReadStudy =
  | { ok: true; entry: StudyEntry }
  | { ok: false; faults: StudyFaults; tableFaults: TableFault[] };

/**
 * A study from the form's fields and the rows of its table. Made on a feature, it takes unit and tolerance from the
 * control plan.
 */
export function readStudy(
  fields: StudyFields,
  {
    gaugeId,
    resolution,
    feature,
    rows,
    today,
    words,
  }: {
    gaugeId: number;
    /** The gauge's step in the study's unit. */
    resolution: number | null;
    feature: FeatureRow | null;
    rows: readonly TableRow[];
    today: string;
    words: EntryWords;
  },
): ReadStudy {
  const { faults: said, table: tableWords } = words.studyForm;
  const read = fieldsIn(words).safeParse(feature ? { ...fields, unit: feature.unit } : fields);
  const faults: StudyFaults = {};
  if (!read.success) {
    for (const { path, message } of read.error.issues) faults[path[0] as keyof StudyFields] ??= message;
    return { ok: false, faults, tableFaults: [] };
  }
  const { kind, unit, width, reference, madeOn, note } = read.data;
  if (fields.feature !== "" && feature === null) faults.feature = said.feature;
  if (madeOn === null) faults.madeOn = said.madeOn;
  else if (madeOn > today) faults.madeOn = said.ahead;
  if (kind === "type-1" && reference === null) faults.reference = said.reference;
  const toleranceWidth = feature ? gaugedWidth(feature.plan) : width;
  if (kind === "type-1" && toleranceWidth === null)
    faults[feature ? "feature" : "width"] = feature ? said.oneLimit : said.needsWidth;
  const table = readStudyTable(rows, { kind, reference, words: tableWords });
  if (!table.ok) return { ok: false, faults, tableFaults: table.faults };
  if (madeOn === null || Object.keys(faults).length > 0) return { ok: false, faults, tableFaults: [] };
  return {
    ok: true,
    entry: {
      gaugeId,
      featureId: feature?.id ?? null,
      unit,
      madeOn,
      note,
      data: table.data,
      settings: { toleranceWidth, resolution, confidence: STUDY_CONFIDENCE },
    },
  };
}

/** Rows as text again, each on its line, so that a file that was refused can be mended in place. */
export function textOfRows(rows: readonly TableRow[]): string {
  const lines: string[] = [];
  for (const { line, cells } of rows) {
    while (lines.length < line - 1) lines.push("");
    lines.push(cells.join("\t"));
  }
  return lines.join("\n");
}
