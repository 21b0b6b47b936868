import { desc, eq, sql } from "drizzle-orm";
import type { FeatureAsFiled, Notice } from "../../lib/intake/batch";
import type { MeasurementSeries } from "../../lib/measurements/series";
import type { CountPlan } from "../../lib/plan/feature-plan";
import {
  chartFor,
  suggestChart,
  suggestCounts,
  suggestKind,
  suggestNaturalBound,
  suggestResolution,
  suggestRules,
} from "../../lib/plan/suggest-plan";
import { MM_PER_INCH } from "../../lib/units/length";
import type { Actor } from "../commands/audit";
import { addFeature, addPart } from "../commands/plan";
import { type Connection, once } from "../connection";
import type { WaitingReader } from "../measurements/arrivals";
import { type KnownFeature, type KnownPlant, knownFeature } from "../measurements/known-plant";
import { type FeatureRow, readFeature } from "../queries/features";
import { part } from "../schema";

/** Number of the part to which features go that a file assigns to none. */
export const NO_PART = "unassigned";

/** The stored part of each part number a file names, entering the new ones. The latest revision counts. */
export function filedParts(
  connection: Connection,
  features: readonly FeatureAsFiled[],
  { plant, actor }: { plant: KnownPlant; actor: Actor },
): ReadonlyMap<string, number> {
  const ids = plant.parts;
  for (const { part: filed } of features) {
    if (ids.has(filed)) continue;
    const number = filed === "" ? NO_PART : filed;
    const known = partQuery(connection).get({ number });
    const entry = { number, revision: "", name: "", line: "", material: "", expansion: null };
    ids.set(filed, known?.id ?? addPart(connection, entry, actor));
  }
  return ids;
}

const partQuery = once(({ orm }) =>
  orm
    .select({ id: part.id })
    .from(part)
    .where(eq(part.number, sql.placeholder("number")))
    .orderBy(desc(part.id))
    .limit(1)
    .prepare(),
);

/** How many readings a subgroup of new features has, when the person chose; null suggests it from the data. */
export type NewFeatures = { subgroupSize: number | null };

/**
 * The stored feature for one as filed. A new one is entered with what the file states and a suggested
 * chart. For a known one the plan stands, and what the file states otherwise comes as notices.
 */
export function filedFeature(
  connection: Connection,
  {
    filed,
    partId,
    rows,
    plant,
    waiting,
    newFeatures,
    actor,
  }: {
    filed: FeatureAsFiled;
    partId: number;
    rows: MeasurementSeries;
    plant: KnownPlant;
    waiting: WaitingReader;
    newFeatures: NewFeatures;
    actor: Actor;
  },
): { known: KnownFeature; notices: readonly Notice[] } {
  const known = plant.feature(partId, filed.feature, () => {
    const id = idQuery(connection).get(partId, filed.feature) as number | undefined;
    return id === undefined ? null : knownFeature(connection, stored(connection, id), waiting);
  });
  if (known) return { known, notices: differences(known.row, filed) };
  const id = addFeature(connection, { partId, entry: entryFor(filed, rows, newFeatures), actor });
  const unitUnknown = {
    line: filed.firstLine,
    message: `No unit is stated for “${filed.feature}”: its values are kept as they are. Set the unit in the control plan.`,
  };
  const added = knownFeature(connection, stored(connection, id));
  const { counts } = added.row.plan;
  if (counts) return { known: added, notices: [asCounts(filed, counts)] };
  return { known: added, notices: filed.unit === null ? [unitUnknown] : [] };
}

/** How a feature was entered because its rows say on how many their counts were found. */
function asCounts({ feature, firstLine }: FeatureAsFiled, { chart }: CountPlan): Notice {
  return {
    line: firstLine,
    message: `“${feature}” is entered as counts on a ${chart} chart, for every row says on how many it was found. Choose another chart in the control plan if that is not so.`,
  };
}

const idQuery = once(({ sqlite }) =>
  sqlite.prepare("select id from feature where part_id = ? and name = ?").pluck(),
);

function stored(connection: Connection, id: number): FeatureRow {
  const row = readFeature(connection, id);
  if (!row) throw new Error(`Feature ${id} vanished inside a transaction.`);
  return row;
}

function entryFor(filed: FeatureAsFiled, rows: MeasurementSeries, { subgroupSize }: NewFeatures) {
  // A tolerance, a nominal or a unit belong to what is measured.
  const isMeasured = [filed.lower, filed.upper, filed.nominal, filed.unit].some((stated) => stated !== null);
  const counts = isMeasured ? null : suggestCounts(rows);
  const kind = suggestKind(filed.feature, filed.nominal);
  const least = rows.value.reduce((smallest, value) => Math.min(smallest, value), Number.POSITIVE_INFINITY);
  const naturalBound = suggestNaturalBound(kind, filed.lower, least);
  return {
    name: filed.feature,
    kind,
    nominal: filed.nominal,
    lower: filed.lower,
    upper: filed.upper,
    target: filed.nominal,
    naturalBound,
    unit: filed.unit ?? ("none" as const),
    resolution: counts ? 1 : suggestResolution(rows.value),
    keyCharacteristic: false,
    ...(counts ? chartFor(1) : subgroupSize === null ? suggestChart(rows) : chartFor(subgroupSize)),
    counts,
    rules: suggestRules(naturalBound),
    length: filed.length,
    expansion: filed.expansion,
    reduced: false,
  };
}

const NO_NOTICES: readonly Notice[] = [];

/** What the file states of a known feature that the plan states otherwise. */
export function differences(row: FeatureRow, filed: FeatureAsFiled): readonly Notice[] {
  if (filed.nominal === null && filed.lower === null && filed.upper === null) return NO_NOTICES;
  const scale = lengthScale(filed.unit, row.unit);
  if (scale === null) return [];
  const said: [string, number | null, number | null][] = [
    ["nominal", filed.nominal, row.nominal],
    ["lower tolerance limit", filed.lower, row.plan.tolerance.lower],
    ["upper tolerance limit", filed.upper, row.plan.tolerance.upper],
  ];
  return said.flatMap(([what, inFile, inPlan]) => {
    if (inFile === null) return [];
    const value = inFile * scale;
    if (inPlan !== null && Math.abs(value - inPlan) <= 1e-9 * Math.max(1, Math.abs(inPlan))) return [];
    return [
      {
        line: filed.firstLine,
        message:
          `The file gives “${filed.feature}” the ${what} ${value}, the control plan ${inPlan ?? "none"}. ` +
          "The plan stands; change it there if the drawing has changed.",
      },
    ];
  });
}

/**
 * What a value in `from` is multiplied with to be in `to`; 1 where either is not stated, null where a length
 * meets an angle.
 */
export function lengthScale(from: FeatureAsFiled["unit"], to: FeatureRow["unit"]): number | null {
  if (from === null || from === to || from === "none" || to === "none") return 1;
  if (from === "in" && to === "mm") return MM_PER_INCH;
  if (from === "mm" && to === "in") return 1 / MM_PER_INCH;
  return null;
}

/** Brings values to the feature's unit, rounding once; changes `values`. */
export function convertValues(
  values: Float64Array,
  from: FeatureAsFiled["unit"],
  to: FeatureRow["unit"],
): void {
  if (from === to) return;
  for (let i = 0; i < values.length; i++) values[i] = convertValue(values[i] as number, from, to);
}

export function convertValue(value: number, from: FeatureAsFiled["unit"], to: FeatureRow["unit"]): number {
  if (from === "in" && to === "mm") return value * MM_PER_INCH;
  // Dividing is exact to the last bit; multiplying with a rounded 1/25.4 would not be.
  return from === "mm" && to === "in" ? value / MM_PER_INCH : value;
}
