import type { Computed } from "../../computed";
import type { FeatureKind } from "../../plan/feature-plan";
import { type FittedModel, fitModel } from "./fitted-model";
import type { ModelName } from "./model";

/** Which models a kind of feature calls for, the most natural one first. */
const BY_KIND: Readonly<Record<FeatureKind, readonly ModelName[]>> = {
  size: ["normal", "lognormal", "weibull"],
  // Two coordinates that miss independently: Rayleigh. Off centre or unequal, the others.
  position: ["rayleigh", "weibull", "folded-normal"],
  form: ["folded-normal", "weibull", "lognormal"],
  orientation: ["folded-normal", "weibull", "rayleigh"],
  profile: ["folded-normal", "weibull", "rayleigh"],
  runout: ["folded-normal", "rayleigh", "weibull"],
  other: ["normal", "lognormal", "weibull"],
};

/** The models of a deviation from zero whose kind nobody stated. */
const FROM_ZERO: readonly ModelName[] = ["folded-normal", "weibull", "rayleigh"];

export type ModelChoiceMade = {
  chosen: FittedModel;
  /** In the order of preference, as far as they were tried. */
  tried: FittedModel[];
  /** Whether the chosen one passed, at the significance asked for. */
  isSettled: boolean;
};

/** Candidates of a kind of feature. A natural bound at zero rules the normal model out. */
export function candidatesFor(kind: FeatureKind | null, naturalBound: number | null): readonly ModelName[] {
  if (naturalBound === null) return kind === null ? BY_KIND.other : BY_KIND[kind];
  const named = kind === null ? FROM_ZERO : BY_KIND[kind];
  return named[0] === "normal" ? FROM_ZERO : named;
}

/**
 * Chooses a model by what the feature is, first, and by how it fits, second.
 *
 * The first candidate that the Anderson-Darling test does not reject is taken, in the order that the kind of feature
 * suggests. To take the best fit of many would let chance choose: with a hundred readings several fit, and their
 * tails beyond the tolerance differ by powers of ten. When all are rejected the one with the highest p-value is
 * returned, not settled.
 *
 * Source: the kinds, ISO 22514-2 (from memory); the order is common practice, no source.
 *
 * @returns the problem of the last candidate when none can be fitted
 * @throws InvalidInput when a reading is not a finite number
 */
export function chooseModel(
  values: ArrayLike<number>,
  {
    candidates,
    significance,
    seed,
  }: { candidates: readonly ModelName[]; significance: number; seed?: number | undefined },
): Computed<ModelChoiceMade> {
  const tried: FittedModel[] = [];
  let last: Computed<FittedModel> | null = null;
  for (const name of candidates) {
    last = fitModel(name, values, seed === undefined ? {} : { seed });
    if (!last.ok) continue;
    tried.push(last.value);
    if (fits(last.value, significance)) {
      return { ok: true, value: { chosen: last.value, tried, isSettled: true } };
    }
  }
  const best = tried.reduce<FittedModel | null>(
    (found, one) => (found === null || one.p > found.p ? one : found),
    null,
  );
  if (best === null) {
    return last !== null && !last.ok
      ? last
      : { ok: false, problem: { code: "too-few-readings", needed: 2, got: values.length } };
  }
  return { ok: true, value: { chosen: best, tried, isSettled: false } };
}

/** Whether the test leaves the model standing, also when only the gauge's grid speaks against it. */
export function fits({ p, spreadOverGrid }: FittedModel, significance: number): boolean {
  return p >= significance || (spreadOverGrid !== null && spreadOverGrid.p >= significance);
}
