import { normalQuantile } from "../distributions/normal";
import { median } from "../summary/moments";
import type { Design } from "./design";
import { movedFeatures } from "./magnitude";
import type { Finding } from "./scan";
import type { TableScan } from "./scan-table";
import { regressorOn } from "./test-hypotheses";

export const FORECAST_LIMITS = ["control", "capability", "tolerance"] as const;
export type ForecastLimit = (typeof FORECAST_LIMITS)[number];

/** Median with the 5 % and 95 % quantile; `high` is infinite when the drift may stand still. */
export type Quantiles = { median: number; low: number; high: number };

/** How long until the mean of a feature on a drifting source reaches a limit. */
export type FeatureForecast = {
  part: string;
  feature: string;
  limit: ForecastLimit;
  side: "lower" | "upper";
  /** Where the mean stands at the last lot and the limit it is bound for, in the feature's unit. */
  level: number;
  bound: number;
  /** From the last lot on; for a wearing tool `lots` is null, since it is changed by pieces. */
  lots: Quantiles | null;
  pieces: Quantiles;
  /** Wear only: share of the longest life seen at which the limit is met. */
  shareOfLife: Quantiles | null;
};

export type Forecast = {
  features: FeatureForecast[];
  /** Features whose slope may as well be nil: when they get there cannot be foreseen. */
  notForeseeable: { part: string; feature: string }[];
};

/** Equally likely slopes taken from each normal distribution. */
const STEPS = 41;
/** Onsets less likely than this, against the likeliest, change no quantile. */
const LEAST_WEIGHT = 0.005;

/**
 * Goes on from a drift: over the posterior of its onset and the normal error of its size,
 *
 *   slope = θ / (lots since onset),     lots left = (limit − level) / slope
 *
 * and the 5 %, 50 % and 95 % quantile of that. Limits: "control" is the mean at 3σ/√n of where it was, n being the
 * usual pieces of the source in a lot; "capability" the mean at 3σ inside the tolerance; "tolerance" the mean on it.
 * The wear of a tool is reckoned in shares of its life in the same way.
 *
 * Quantiles of the normal distribution take the place of random draws, so that the same data give the same digits.
 *
 * @returns null for anything but a trend
 */
export function forecastOf(finding: Finding): Forecast | null {
  if (finding.kind !== "trend" || finding.source.kind === "temperature") return null;
  const moved = new Set(movedFeatures(finding.shifts).map(({ part, feature }) => `${part}|${feature}`));
  const out: Forecast = { features: [], notForeseeable: [] };
  for (const { table, k } of finding.candidate.places) {
    const scan = finding.scans[table]!;
    const { prepared, hypotheses } = scan;
    const { scope } = hypotheses.carriers[hypotheses.all[k]!.carrier]!;
    for (const f of scope) {
      const name = { part: prepared.table.part, feature: prepared.features[f]!.feature.name };
      if (!moved.has(`${name.part}|${name.feature}`)) continue;
      const course = finding.source.kind === "tool" ? wearOf(scan, k, f) : driftOf(finding, table, f);
      if (course === null) out.notForeseeable.push(name);
      else out.features.push(...towardsLimits(name, course));
    }
  }
  out.features.sort((a, b) => a.pieces.median - b.pieces.median);
  return out;
}

/** Where a feature stands and how fast it goes, as equally likely slopes in its unit per lot (or per life). */
type Course = {
  base: number;
  level: number;
  slopes: { slope: number; weight: number }[];
  sigma: number;
  lower: number | null;
  upper: number | null;
  perLot: number;
  /** Wear: pieces of a life, and the share of it used up by the edge in use. */
  life: { pieces: number; used: number } | null;
};

function driftOf(finding: Finding, table: number, f: number): Course | null {
  const scan = finding.scans[table]!;
  const { tests, fit, prepared, hypotheses } = scan;
  const { feature, sigma } = prepared.features[f]!;
  const unit = sigma * fit.scale[f]!;
  const slopes: Course["slopes"] = [];
  const most = Math.max(...finding.onsets.map(({ tempered }) => tempered));
  for (const { tempered, places } of finding.onsets) {
    const there = places.find((place) => place.table === table);
    const weight = Math.exp(tempered - most);
    if (there === undefined || weight < LEAST_WEIGHT) continue;
    const at = there.k * tests.features + f;
    if (!(tests.information[at]! > 0)) continue;
    const error = 1 / Math.sqrt(tests.information[at]!);
    const lasts = hypotheses.all[there.k]!.scale;
    for (const z of NORMAL_STEPS) {
      slopes.push({ slope: ((tests.t[at]! + z) * error * unit) / lasts, weight });
    }
  }
  const own = finding.candidate.places.find((place) => place.table === table)!;
  const reached = levelOn(scan, own.k, f);
  if (reached === null || slopes.length === 0 || mayStandStill(slopes)) return null;
  return { ...reached, slopes, sigma: unit, lower: feature.lower, upper: feature.upper, life: null };
}

function wearOf(scan: TableScan, k: number, f: number): Course | null {
  const { tests, fit, prepared, hypotheses } = scan;
  const { feature, sigma, design: d } = prepared.features[f]!;
  const design = prepared.designs[d]!;
  const unit = sigma * fit.scale[f]!;
  const at = k * tests.features + f;
  const error = 1 / Math.sqrt(tests.information[at]!);
  const slopes = NORMAL_STEPS.map((z) => ({ slope: (tests.t[at]! + z) * error * unit, weight: 1 }));
  const reached = levelOn(scan, k, f);
  const sparse = hypotheses.carriers[hypotheses.all[k]!.carrier]!.on[d];
  if (reached === null || !sparse || mayStandStill(slopes)) return null;
  const last = lastInTime(design, scan, sparse.rows);
  const used = design.tool.age[last]!;
  const pieces = design.tool.longest.get(design.tool.levels.codes[design.tool.of[last]!]!) ?? 1;
  const perLife = (tests.t[at]! / Math.sqrt(tests.information[at]!)) * unit;
  return {
    base: reached.base,
    level: reached.base + perLife * used,
    perLot: reached.perLot,
    slopes,
    sigma: unit,
    lower: feature.lower,
    upper: feature.upper,
    life: { pieces, used },
  };
}

function lastInTime(design: Design, { prepared }: TableScan, rows: Int32Array): number {
  const takenAt = (i: number) => prepared.table.takenAt[design.rows[i]!]!;
  return rows.reduce((a, b) => (takenAt(b) >= takenAt(a) ? b : a));
}

const NORMAL_STEPS = Array.from({ length: STEPS }, (_, i) => normalQuantile((i + 0.5) / STEPS));

function mayStandStill(slopes: readonly { slope: number; weight: number }[]): boolean {
  const [low] = quantiles(
    slopes.map(({ slope, weight }) => ({ value: slope, weight })),
    [0.05],
  );
  const [high] = quantiles(
    slopes.map(({ slope, weight }) => ({ value: slope, weight })),
    [0.95],
  );
  return low! <= 0 && high! >= 0;
}

/** The mean of the source's pieces without the drift, and with what it has reached by the last lot. */
function levelOn(scan: TableScan, k: number, f: number): Pick<Course, "base" | "level" | "perLot"> | null {
  const { tests, fit, prepared, hypotheses } = scan;
  const hypothesis = hypotheses.all[k]!;
  const { middle, sigma, design: d } = prepared.features[f]!;
  const carrier = hypotheses.carriers[hypothesis.carrier]!;
  const column = regressorOn(prepared.designs, d, carrier, hypothesis);
  const sparse = carrier.on[d];
  if (column === null || !sparse) return null;
  const unit = sigma * fit.scale[f]!;
  const at = k * tests.features + f;
  const theta = tests.t[at]! / Math.sqrt(tests.information[at]!);
  let sum = 0;
  const inLots = new Map<number, number>();
  for (const i of sparse.rows) {
    sum += fit.values[f]![i]! - theta * column[i]!;
    const lot = prepared.designs[d]!.lotOf[i]!;
    inLots.set(lot, (inLots.get(lot) ?? 0) + 1);
  }
  const base = middle + (unit * sum) / sparse.rows.length;
  return { base, level: base + unit * theta, perLot: median([...inLots.values()]) };
}

function towardsLimits(name: { part: string; feature: string }, course: Course): FeatureForecast[] {
  const { base, level, slopes, sigma, lower, upper, perLot, life } = course;
  const rising = slopes.reduce((sum, { slope, weight }) => sum + slope * weight, 0) > 0;
  const side = rising ? "upper" : "lower";
  const sign = rising ? 1 : -1;
  const tolerance = rising ? upper : lower;
  const bounds: Record<ForecastLimit, number | null> = {
    control: base + (sign * 3 * sigma) / Math.sqrt(Math.max(1, perLot)),
    capability: tolerance === null ? null : tolerance - sign * 3 * sigma,
    tolerance,
  };
  return FORECAST_LIMITS.flatMap((limit) => {
    const bound = bounds[limit];
    if (bound === null) return [];
    const from = life === null ? level : base;
    const left = slopes.map(({ slope, weight }) => {
      const towards = sign * slope;
      const distance = sign * (bound - from);
      const value = towards > 0 ? Math.max(0, distance / towards) : Number.POSITIVE_INFINITY;
      return { value: distance <= 0 ? 0 : value, weight };
    });
    const [low, middle, high] = quantiles(left, [0.05, 0.5, 0.95]) as [number, number, number];
    const found = { low, median: middle, high };
    const times = (factor: number, less = 0): Quantiles => ({
      low: Math.max(0, (low - less) * factor),
      median: Math.max(0, (middle - less) * factor),
      high: Math.max(0, (high - less) * factor),
    });
    return [
      {
        ...name,
        limit,
        side,
        level,
        bound,
        lots: life === null ? found : null,
        pieces: life === null ? times(perLot) : times(life.pieces, life.used),
        shareOfLife: life === null ? null : found,
      },
    ];
  });
}

/** Quantiles of weighted values, each the smallest value that holds the share. */
export function quantiles(
  values: readonly { value: number; weight: number }[],
  shares: readonly number[],
): number[] {
  const sorted = [...values].sort((a, b) => a.value - b.value);
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0);
  return shares.map((share) => {
    let held = 0;
    for (const { value, weight } of sorted) {
      held += weight;
      if (held >= share * total) return value;
    }
    return sorted.at(-1)?.value ?? Number.NaN;
  });
}
