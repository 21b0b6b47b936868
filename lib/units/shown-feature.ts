import type { Standing } from "../evaluation/standing";
import type { FeaturePlan, KnownUnit, LimitsVersion } from "../plan/feature-plan";
import { inShownUnit, type LengthDisplay, resolutionIn } from "./length";

/*
 * What pages show of a feature, with its lengths in the unit that the plant wants to see. Whole records are converted
 * where they are read, so that nothing behind, from the judge to the axis of a chart, has to know: charts, limits,
 * signals, z and indices are the same whatever the unit, for they only compare lengths with each other (differences
 * below a billionth of sigma are ties to every rule). Nothing converted is ever stored.
 */

/** Decimals shown where a feature's resolution is not stated are three of its own unit; so it is worth this step. */
const STEP_NOT_STATED = 0.001;

type Planned = { unit: KnownUnit; resolution: number | null; plan: FeaturePlan; nominal?: number | null };

/**
 * A feature as it is shown: unit, resolution, nominal and everything its plan states as a length. Lengths that expand
 * are in mm always, and the memory of a chart is in sigma.
 */
export function shownFeatureData<Feature extends Planned>(feature: Feature, display: LengthDisplay): Feature {
  const { unit, length } = inShownUnit(feature.unit, display);
  if (unit === feature.unit) return feature;
  return {
    ...feature,
    unit,
    resolution: resolutionIn(feature.resolution ?? STEP_NOT_STATED, feature.unit, unit),
    ...(feature.nominal !== undefined && { nominal: length(feature.nominal) }),
    plan: planIn(feature.plan, length),
  };
}

type Length = ReturnType<typeof inShownUnit>["length"];

function planIn(plan: FeaturePlan, length: Length): FeaturePlan {
  const { tolerance, target, naturalBound } = plan;
  return {
    ...plan,
    tolerance: { lower: length(tolerance.lower), upper: length(tolerance.upper) },
    target: length(target),
    naturalBound: length(naturalBound),
  };
}

function limitsIn<Limits extends LimitsVersion>(limits: Limits, length: Length): Limits {
  const { centre, sigma, betweenLots } = limits;
  return {
    ...limits,
    centre: length(centre),
    sigma: length(sigma),
    ...(betweenLots !== undefined && { betweenLots: length(betweenLots) }),
  };
}

type History = {
  feature: Planned;
  series: { value: Float64Array };
  setup: { plan: FeaturePlan; unit: KnownUnit; versions: readonly LimitsVersion[] };
  limits: readonly LimitsVersion[];
};

/** A feature's whole history as it is shown: its measurements, plan and limits. */
export function shownHistory<Shown extends History>(history: Shown, display: LengthDisplay): Shown {
  const { unit, length } = inShownUnit(history.feature.unit, display);
  if (unit === history.feature.unit) return history;
  const { setup, series } = history;
  return {
    ...history,
    feature: shownFeatureData(history.feature, display),
    series: { ...series, value: series.value.map((value) => length(value)) },
    setup: {
      ...setup,
      unit,
      plan: planIn(setup.plan, length),
      versions: setup.versions.map((version) => limitsIn(version, length)),
    },
    limits: history.limits.map((version) => limitsIn(version, length)),
  };
}

/** Where a feature stands, as a strip shows it; its indices have no unit. */
export function shownStanding<Shown extends Pick<Standing, "centre" | "sigma" | "betweenLots" | "means">>(
  standing: Shown,
  unit: KnownUnit,
  display: LengthDisplay,
): Shown {
  const { length, unit: shown } = inShownUnit(unit, display);
  if (shown === unit) return standing;
  const { centre, sigma, betweenLots, means } = standing;
  return {
    ...standing,
    centre: length(centre),
    sigma: length(sigma),
    betweenLots: length(betweenLots),
    means: means.map(length),
  };
}
