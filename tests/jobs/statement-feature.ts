import { emptySeries, type NameColumn } from "../../lib/measurements/series";
import type { FeaturePlan, Tolerance } from "../../lib/plan/feature-plan";
import type { AskedOfFeature, FeatureBehind } from "../../lib/statement/state-feature";

const HOUR = 3_600_000;
const BEGUN = Date.UTC(2026, 0, 5);

/** A feature with readings an hour apart, eight a lot, ready to be stated. */
export function featureOf({
  id = 1,
  name = "Film thickness",
  values,
  tolerance,
}: {
  id?: number;
  name?: string;
  values: readonly number[];
  tolerance: Tolerance;
}) {
  const series = emptySeries(values.length);
  for (const [i, value] of values.entries()) {
    series.value[i] = value;
    series.takenAt[i] = BEGUN + i * HOUR;
    series.lot[i] = 1 + Math.floor(i / 8);
    series.piece[i] = 1 + i;
    series.gauge[i] = 1;
  }
  const plan: FeaturePlan = {
    chart: "xbar-s",
    subgroupSize: 4,
    rules: ["beyond-3s"],
    tolerance,
    target: null,
    naturalBound: null,
    reduction: null,
  };
  const behind: FeatureBehind = {
    feature: {
      id,
      name,
      kind: "size",
      unit: "none",
      nominal: null,
      resolution: 1,
      keyCharacteristic: false,
      plan,
    },
    series,
    limits: [],
    exclusions: [],
    answered: [],
  };
  const asked: AskedOfFeature = {
    window: { from: null, to: null, lots: null },
    model: "normal",
    gaugeShare: 0.12,
    gaugeBasis: null,
    confidence: 0.95,
  };
  const namesOf = async (column: NameColumn, ids: Iterable<number>) =>
    new Map([...ids].map((each) => [each, `${column === "gauge" ? "G" : column}-${each}`]));
  return { behind, asked, namesOf };
}
