import { z } from "zod";
import type { FeatureEntry } from "../../db/commands/plan";
import type { FeatureRow } from "../../db/queries/features";
import { inField } from "../../lib/format/typed-number";
import { isPerUnit } from "../../lib/plan/counts";
import {
  ATTRIBUTE_CHARTS,
  CHART_KINDS,
  type ChartKind,
  type CountPlan,
  FEATURE_KINDS,
  type MemoryChart,
  UNITS,
} from "../../lib/plan/feature-plan";
import {
  type MemoryChartFault,
  memoryChartFault,
  USUAL_CUSUM,
  USUAL_EWMA,
} from "../../lib/plan/memory-chart";
import { RULES } from "../../lib/rules/known-rules";
import type { Words } from "../../lib/words/words";
import { numberField } from "../fittings/number-field";

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
  indexAsked: string;
  subgroupSize: string;
  /** A kind of chart for measured values, or one for counts. */
  chart: string;
  countedOn: string;
  rules: string[];
  /** "none", or the kind of the chart with a memory; its own fields are empty for the other kind. */
  alsoWatch: string;
  smoothing: string;
  width: string;
  reference: string;
  decisionInterval: string;
  headStart: boolean;
  length: string;
  /** In millionths per kelvin, as tables of materials print it. */
  expansion: string;
  /** Standard uncertainties, of the part temperature in kelvin and of the coefficient in millionths per kelvin. */
  temperatureUncertainty: string;
  expansionUncertainty: string;
  reduced: boolean;
  reason: string;
};

const PER_MILLION = 1e-6;

const slugs = RULES.map(({ slug }) => slug);

/** What the form must hold, each field with its sentence for what will not do. */
function fieldsIn({ plan: { faults: said }, fittings }: EntryWords) {
  const number = numberField("12.345", fittings);
  const notNegative = number.pipe(z.number().min(0, said.uncertainty).nullable());
  const index = number.pipe(z.number().positive(said.indexAsked).max(10, said.indexAsked).nullable());
  const count = number.pipe(
    z.number({ error: said.size }).int(said.sizeWhole).min(1, said.sizeLeast).max(1000, said.sizeMost),
  );
  return z.object({
    name: z.string().trim().min(1, said.featureName).max(120, said.atMost(120)),
    kind: z.enum(FEATURE_KINDS, said.choice),
    nominal: number,
    lower: number,
    upper: number,
    target: number,
    naturalBound: number,
    unit: z.enum(UNITS, said.choice),
    resolution: number,
    keyCharacteristic: z.boolean(),
    indexAsked: index,
    subgroupSize: count,
    chart: z.enum([...CHART_KINDS, ...ATTRIBUTE_CHARTS], said.choice),
    countedOn: number,
    rules: z.array(z.string().refine((slug) => slugs.includes(slug), said.noSuchRule)).min(1, said.noRule),
    alsoWatch: z.enum(["none", "ewma", "cusum"], said.choice),
    smoothing: number,
    width: number,
    reference: number,
    decisionInterval: number,
    headStart: z.boolean(),
    length: number,
    expansion: number,
    temperatureUncertainty: notNegative,
    expansionUncertainty: notNegative,
    reduced: z.boolean(),
    reason: z.string().trim().max(500, said.atMost(500)),
  });
}

/** What the readers of this form say. */
export type EntryWords = Pick<Words, "plan" | "fittings">;

export type FieldFaults = Partial<Record<keyof FeatureFields, string>>;

export type ReadFeature =
  | { ok: true; entry: FeatureEntry; reason: string; fields: FeatureFields }
  | { ok: false; faults: FieldFaults; fields: FeatureFields };

/** Reads the form; every field that will not do gets its own sentence. */
export function readFeatureForm(form: FormData, words: EntryWords): ReadFeature {
  const fields = fieldsOfForm(form);
  const read = fieldsIn(words).safeParse(fields);
  if (!read.success) {
    const faults: FieldFaults = {};
    for (const { path, message } of read.error.issues) {
      const field = path[0] as keyof FeatureFields;
      faults[field] ??= message;
    }
    return { ok: false, faults, fields };
  }
  const { reason, expansion, expansionUncertainty, chart, countedOn, alsoWatch, ...rest } = read.data;
  const { smoothing, width, reference, decisionInterval, headStart, subgroupSize, ...plain } = rest;
  const counts = countPlanOf(chart, countedOn);
  if (counts === "absent") {
    return {
      ok: false,
      faults: { countedOn: words.plan.faults.countedOn },
      fields,
    };
  }
  const memory = memoryChartOf(alsoWatch, { smoothing, width, reference, decisionInterval, headStart });
  if (typeof memory === "string")
    return { ok: false, faults: { alsoWatch: words.plan.faults.memory[memory] }, fields };
  return {
    ok: true,
    entry: {
      ...plain,
      ...(counts ? { chart: "i-mr", subgroupSize: 1 } : { chart: measuredChart(chart), subgroupSize }),
      counts,
      alsoWatch: memory,
      expansion: expansion === null ? null : expansion * PER_MILLION,
      expansionUncertainty: expansionUncertainty === null ? null : expansionUncertainty * PER_MILLION,
    },
    reason,
    fields,
  };
}

/** Where samples may differ in size, every count may have to say its own. */
function countPlanOf(chart: string, countedOn: number | null): CountPlan | null | "absent" {
  const kind = ATTRIBUTE_CHARTS.find((one) => one === chart);
  if (!kind) return null;
  return countedOn === null && !isPerUnit(kind) ? "absent" : { chart: kind, size: countedOn };
}

function measuredChart(chart: string): ChartKind {
  return CHART_KINDS.find((kind) => kind === chart) ?? "i-mr";
}

/** The chart with a memory that the form describes, or which figure will not do. Empty fields take the usual figures. */
function memoryChartOf(
  kind: "none" | "ewma" | "cusum",
  typed: {
    smoothing: number | null;
    width: number | null;
    reference: number | null;
    decisionInterval: number | null;
    headStart: boolean;
  },
): MemoryChart | null | MemoryChartFault {
  if (kind === "none") return null;
  const interval = typed.decisionInterval ?? USUAL_CUSUM.decisionInterval;
  const chart: MemoryChart =
    kind === "ewma"
      ? {
          kind,
          smoothing: typed.smoothing ?? USUAL_EWMA.smoothing,
          width: typed.width ?? USUAL_EWMA.width,
        }
      : {
          kind,
          reference: typed.reference ?? USUAL_CUSUM.reference,
          decisionInterval: interval,
          headStart: typed.headStart ? interval / 2 : 0,
        };
  return memoryChartFault(chart) ?? chart;
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
    indexAsked: text("indexAsked"),
    subgroupSize: text("subgroupSize"),
    chart: text("chart"),
    countedOn: text("countedOn"),
    rules: form.getAll("rules").filter((value) => typeof value === "string"),
    alsoWatch: text("alsoWatch"),
    smoothing: text("smoothing"),
    width: text("width"),
    reference: text("reference"),
    decisionInterval: text("decisionInterval"),
    headStart: form.has("headStart"),
    length: text("length"),
    expansion: text("expansion"),
    temperatureUncertainty: text("temperatureUncertainty"),
    expansionUncertainty: text("expansionUncertainty"),
    reduced: form.has("reduced"),
    reason: text("reason"),
  };
}

/** A stored feature as the form shows it. */
export function fieldsOfFeature(feature: FeatureRow, ownExpansion: number | null): FeatureFields {
  const { plan } = feature;
  const text = (value: number | null) => (value === null ? "" : inField(value));
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
    indexAsked: text(feature.indexAsked),
    subgroupSize: text(plan.subgroupSize),
    chart: plan.counts?.chart ?? plan.chart,
    countedOn: text(plan.counts?.size ?? null),
    rules: [...plan.rules],
    ...fieldsOfMemory(plan.alsoWatch ?? null),
    length: text(feature.length),
    expansion: perMillion(ownExpansion),
    temperatureUncertainty: text(feature.temperatureUncertainty),
    expansionUncertainty: perMillion(feature.expansionUncertainty),
    reduced: feature.reduced,
    reason: "",
  };
}

function perMillion(value: number | null): string {
  return value === null ? "" : inField(Number((value / PER_MILLION).toPrecision(12)));
}

export const NO_MEMORY_CHART = {
  alsoWatch: "none",
  smoothing: "",
  width: "",
  reference: "",
  decisionInterval: "",
  headStart: false,
};

function fieldsOfMemory(chart: MemoryChart | null): typeof NO_MEMORY_CHART {
  if (chart === null) return NO_MEMORY_CHART;
  if (chart.kind === "ewma") {
    return {
      ...NO_MEMORY_CHART,
      alsoWatch: "ewma",
      smoothing: String(chart.smoothing),
      width: String(chart.width),
    };
  }
  return {
    ...NO_MEMORY_CHART,
    alsoWatch: "cusum",
    reference: String(chart.reference),
    decisionInterval: String(chart.decisionInterval),
    headStart: chart.headStart > 0,
  };
}

type JudgedChange = keyof Words["plan"]["answers"]["changes"];

/** What in an entry changes how measurements are judged; such a change needs a reason. */
export function judgedChanges(before: FeatureRow, after: FeatureEntry): JudgedChange[] {
  const { plan } = before;
  const changes: JudgedChange[] = [];
  if (plan.tolerance.lower !== after.lower || plan.tolerance.upper !== after.upper) changes.push("tolerance");
  if (plan.chart !== after.chart || !isAlike(plan.counts, after.counts)) changes.push("chart");
  if (plan.subgroupSize !== after.subgroupSize) changes.push("subgroup size");
  if ([...plan.rules].sort().join() !== [...after.rules].sort().join()) changes.push("run rules");
  if (!isAlike(plan.alsoWatch, after.alsoWatch)) changes.push("the chart that also watches");
  if (before.reduced !== after.reduced || before.length !== after.length) changes.push("reduction to 20 °C");
  return changes;
}

/** Small plain data whose fields always come in one order. */
function isAlike(a: object | null | undefined, b: object | null | undefined): boolean {
  return JSON.stringify(a ?? null) === JSON.stringify(b ?? null);
}
