import { z } from "zod";
import type { GaugeEntry } from "../../db/commands/gauges";
import type { GaugeRecord } from "../../db/queries/gauges";
import { inField } from "../../lib/format/typed-number";
import type { Words } from "../../lib/words/words";
import { numberField } from "../fittings/number-field";

/** The form's fields as text, so that what was typed can be shown again beside its fault. */
export type GaugeFields = {
  code: string;
  what: string;
  resolution: string;
  errorA: string;
  errorK: string;
  portable: boolean;
  calibratedOn: string;
  calibrationDue: string;
  note: string;
};

export type GaugeFaults = Partial<Record<keyof GaugeFields, string>>;

export type ReadGauge = { fields: GaugeFields } & (
  | { ok: true; code: string; entry: GaugeEntry }
  | { ok: false; faults: GaugeFaults }
);

/** What the readers of these forms say. */
export type EntryWords = Pick<Words, "gauges" | "studyForm" | "fittings">;
type FaultWords = Words["gauges"]["faults"];

/** A day as a browser's field gives it; null for an empty one. */
export const dayField = (said: FaultWords) =>
  z
    .string()
    .trim()
    .refine(
      (text) => text === "" || (/^\d{4}-\d{2}-\d{2}$/.test(text) && !Number.isNaN(Date.parse(text))),
      said.day,
    )
    .transform((text) => (text === "" ? null : text));

/** What the form must hold, each field with its sentence for what will not do. */
function fieldsIn({ gauges: { faults: said }, fittings }: EntryWords) {
  const number = numberField("1.7", fittings);
  const day = dayField(said);
  return z.object({
    code: z.string().trim().max(60, said.atMost(60)),
    what: z.string().trim().max(120, said.atMost(120)),
    resolution: number.refine((value) => value === null || value > 0, said.resolution),
    errorA: number.refine((value) => value === null || value >= 0, said.A),
    errorK: number.refine((value) => value === null || value > 0, said.K),
    portable: z.boolean(),
    calibratedOn: day,
    calibrationDue: day,
    note: z.string().trim().max(1000, said.atMost(1000)),
  });
}

/** Reads the form; every field that will not do gets its own sentence. */
export function readGaugeForm(form: FormData, words: EntryWords): ReadGauge {
  const text = (name: keyof GaugeFields) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
  const fields: GaugeFields = {
    code: text("code"),
    what: text("what"),
    resolution: text("resolution"),
    errorA: text("errorA"),
    errorK: text("errorK"),
    portable: form.has("portable"),
    calibratedOn: text("calibratedOn"),
    calibrationDue: text("calibrationDue"),
    note: text("note"),
  };
  const read = fieldsIn(words).safeParse(fields);
  if (read.success) {
    const { code, ...entry } = read.data;
    return { ok: true, fields, code, entry };
  }
  const faults: GaugeFaults = {};
  for (const { path, message } of read.error.issues) faults[path[0] as keyof GaugeFields] ??= message;
  return { ok: false, fields, faults };
}

/** A stored record as the form shows it. */
export function fieldsOfGauge(code: string, record: GaugeRecord | null): GaugeFields {
  const text = (value: number | null | undefined) =>
    value === null || value === undefined || !Number.isFinite(value) ? "" : inField(value);
  return {
    code,
    what: record?.what ?? "",
    resolution: text(record?.resolution),
    errorA: text(record?.stated?.A),
    errorK: text(record?.stated?.K),
    portable: record?.portable ?? false,
    calibratedOn: record?.calibratedOn ?? "",
    calibrationDue: record?.calibrationDue ?? "",
    note: record?.note ?? "",
  };
}
