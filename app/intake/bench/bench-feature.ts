import type { FeatureRow } from "../../../db/queries/features";
import type { BenchFeature } from "../../../lib/intake/bench-cell";

/** What a cell at the bench needs to know of its feature. */
export function benchFeature({ id, name, unit, resolution, nominal, plan }: FeatureRow): BenchFeature {
  const { tolerance, naturalBound, counts = null } = plan;
  return { id, name, unit, resolution, nominal: nominal ?? naturalBound, ...tolerance, counts };
}
