import { z } from "zod";
import type { FeatureEntry } from "../../db/commands/plan";
import type { FeatureRow } from "../../db/queries/features";
import { typedNumber } from "../../lib/format/typed-number";
import { CHART_KINDS, FEATURE_KINDS, UNITS } from "../../lib/plan/feature-plan";
import { RULES } from "../../lib/rules/known-rules";

/** The form's fields as text, so that what was typed can be shown again beside its fault. */
export type FeatureFields = {
  name: string;
  kind: string;
  nominal: string;
  lower: string;
  upper: string;
  target: string;
  naturalBound: string;
  unit: string;
  resolution: string;
  keyCharacteristic: boolean;
  subgroupSize: string;
  chart: string;
  rules: string[];
  length: string;
  /** In millionths per kelvin, as tables of materials print it. */
  expansion: string;
  reduced: boolean;
  reason: string;
};

const PER_MILLION = 1e-6;

const number = z
  .string()
  .max(40)
  .transform((text, context) => {
    const value = typedNumber(text);
    if (value !== undefined) return value;
    context.addIssue({ code: "custom", message: `"${text}" is not a number. Write it like 12.345.` });
    return z.NEVER;
  });

const count = number.pipe(
  z
    .number({ error: "Enter how many measurements make a subgroup; 1 for a chart of single readings." })
    .int("A subgroup has a whole number of measurements.")
    .min(1, "A subgroup has at least 1 measurement.")
    .max(1000, "A subgroup has at most 1000 measurements."),
);

const slugs = RULES.map(({ slug }) => slug);

const Fields = z.object({
  name: z.string().trim().min(1, "A feature needs a name.").max(120, "At most 120 characters."),
  kind: z.enum(FEATURE_KINDS),
  nominal: number,
  lower: number,
  upper: number,
  target: number,
  naturalBound: number,
  unit: z.enum(UNITS),
  resolution: number,
  keyCharacteristic: z.boolean(),
  subgroupSize: count,
  chart: z.enum(CHART_KINDS),
  rules: z
    .array(z.string().refine((slug) => slugs.includes(slug), "There is no such rule."))
    .min(1, "Choose at least one rule, or nothing would ever signal."),
  length: number,
  expansion: number,
  reduced: z.boolean(),
  reason: z.string().trim().max(500, "At most 500 characters."),
});

export type FieldFaults = Partial<Record<keyof FeatureFields, string>>;

export type ReadFeature =
  | { ok: true; entry: FeatureEntry; reason: string; fields: FeatureFields }
  | { ok: false; faults: FieldFaults; fields: FeatureFields };

/** Reads the form; every field that will not do gets its own sentence. */
export function readFeatureForm(form: FormData): ReadFeature {
  const fields = fieldsOfForm(form);
  const read = Fields.safeParse(fields);
  if (!read.success) {
    const faults: FieldFaults = {};
    for (const { path, message } of read.error.issues) {
      const field = path[0] as keyof FeatureFields;
      faults[field] ??= message;
    }
    return { ok: false, faults, fields };
  }
  const { reason, expansion, ...rest } = read.data;
  return {
    ok: true,
    entry: { ...rest, expansion: expansion === null ? null : expansion * PER_MILLION },
    reason,
    fields,
  };
}

function fieldsOfForm(form: FormData): FeatureFields {
  const text = (name: string) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
  return {
    name: text("name"),
    kind: text("kind"),
    nominal: text("nominal"),
    lower: text("lower"),
    upper: text("upper"),
    target: text("target"),
    naturalBound: text("naturalBound"),
    unit: text("unit"),
    resolution: text("resolution"),
    keyCharacteristic: form.has("keyCharacteristic"),
    subgroupSize: text("subgroupSize"),
    chart: text("chart"),
    rules: form.getAll("rules").filter((value) => typeof value === "string"),
    length: text("length"),
    expansion: text("expansion"),
    reduced: form.has("reduced"),
    reason: text("reason"),
  };
}

/** A stored feature as the form shows it. */
export function fieldsOfFeature(feature: FeatureRow, ownExpansion: number | null): FeatureFields {
  const { plan } = feature;
  const text = (value: number | null) => (value === null ? "" : String(value));
  return {
    name: feature.name,
    kind: feature.kind,
    nominal: text(feature.nominal),
    lower: text(plan.tolerance.lower),
    upper: text(plan.tolerance.upper),
    target: text(plan.target),
    naturalBound: text(plan.naturalBound),
    unit: feature.unit,
    resolution: text(feature.resolution),
    keyCharacteristic: feature.keyCharacteristic,
    subgroupSize: text(plan.subgroupSize),
    chart: plan.chart,
    rules: [...plan.rules],
    length: text(feature.length),
    expansion: ownExpansion === null ? "" : String(Number((ownExpansion / PER_MILLION).toPrecision(12))),
    reduced: feature.reduced,
    reason: "",
  };
}

/** What in an entry changes how measurements are judged, in words; such a change needs a reason. */
export function judgedChanges(before: FeatureRow, after: FeatureEntry): string[] {
  const { plan } = before;
  const changes: string[] = [];
  if (plan.tolerance.lower !== after.lower || plan.tolerance.upper !== after.upper) changes.push("tolerance");
  if (plan.chart !== after.chart) changes.push("chart");
  if (plan.subgroupSize !== after.subgroupSize) changes.push("subgroup size");
  if ([...plan.rules].sort().join() !== [...after.rules].sort().join()) changes.push("run rules");
  if (before.reduced !== after.reduced || before.length !== after.length) changes.push("reduction to 20 °C");
  return changes;
}
