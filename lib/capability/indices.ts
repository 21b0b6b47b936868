import { InvalidInput, requireFiniteNumbers } from "../checks";
import { type Computed, computed, problem } from "../computed";
import type { Tolerance } from "../plan/feature-plan";
import { judgedTolerance } from "./tolerance";

export const INDEX_NAMES = ["Cp", "Cpk", "Cpl", "Cpu", "Pp", "Ppk", "Ppl", "Ppu", "Cpm"] as const;
export type IndexName = (typeof INDEX_NAMES)[number];

/** Null where an index has no meaning: a side without a limit, no within sigma, no target. */
export type Indices = Record<IndexName, number | null>;

/** All in the unit of the feature. `sigmaWithin` is that of the chart in use, null where there is none. */
export type ProcessSummary = {
  mean: number;
  sdOverall: number;
  sigmaWithin: number | null;
  tolerance: Tolerance;
  target: number | null;
  naturalBound: number | null;
};

/**
 * Capability and performance indices of a normal process.
 *
 *   Cp  = (U − L) / 6σw        Pp  = (U − L) / 6s
 *   Cpu = (U − x̄) / 3σw        Ppu = (U − x̄) / 3s
 *   Cpl = (x̄ − L) / 3σw        Ppl = (x̄ − L) / 3s
 *   Cpk, Ppk = the smaller of the two sides
 *   Cpm = (U − L) / 6√(s² + (x̄ − T)²)
 *
 * σw is the sigma within subgroups (what the process could do), s the sample standard deviation with
 * n − 1 of all readings (what it did). With one tolerance limit, only that side's index exists and Cpk
 * is that index. No index is taken against a natural bound.
 *
 * When every subgroup is all alike (σw = 0) but the readings are not, the C indices are null: the gauge
 * resolves too little to see the within variation.
 *
 * Source: ISO 22514-2 and ISO 22514-4 (from memory); NIST/SEMATECH e-Handbook 6.1.6. Cpm: Chan, Cheng
 * and Spiring, J. Quality Technology 20 (1988), in the form with n − 1 that NIST prints.
 *
 * @returns the problem "no-tolerance" when no limit can be judged against, "no-variation" when s = 0
 * @throws InvalidInput when a number is not finite, a sigma is negative or the limits are swapped
 */
export function capabilityIndices(process: ProcessSummary): Computed<Indices> {
  const where = "capabilityIndices";
  const { mean, sdOverall, sigmaWithin, target } = process;
  requireFiniteNumbers(where, { mean, sdOverall });
  if (sdOverall < 0) throw new InvalidInput(where, "sdOverall", sdOverall, "at least 0");
  if (sigmaWithin !== null) {
    requireFiniteNumbers(where, { sigmaWithin });
    if (sigmaWithin < 0) throw new InvalidInput(where, "sigmaWithin", sigmaWithin, "at least 0");
  }
  if (target !== null) requireFiniteNumbers(where, { target });

  const tolerance = judgedTolerance(where, process);
  if (tolerance.lower === null && tolerance.upper === null) return problem({ code: "no-tolerance" });
  if (sdOverall === 0) return problem({ code: "no-variation" });

  const within = sigmaWithin ? sides({ mean, sigma: sigmaWithin, tolerance }) : NO_SIDES;
  const overall = sides({ mean, sigma: sdOverall, tolerance });
  return computed({
    Cp: within.both,
    Cpk: within.worse,
    Cpl: within.lower,
    Cpu: within.upper,
    Pp: overall.both,
    Ppk: overall.worse,
    Ppl: overall.lower,
    Ppu: overall.upper,
    Cpm:
      target === null ? null : sides({ mean, sigma: Math.hypot(sdOverall, mean - target), tolerance }).both,
  });
}

/** No index at all: for a feature whose indices are a problem. */
export const NO_INDICES: Indices = {
  Cp: null,
  Cpk: null,
  Cpl: null,
  Cpu: null,
  Pp: null,
  Ppk: null,
  Ppl: null,
  Ppu: null,
  Cpm: null,
};

type Sides = { both: number | null; lower: number | null; upper: number | null; worse: number | null };

const NO_SIDES: Sides = { both: null, lower: null, upper: null, worse: null };

function sides({ mean, sigma, tolerance }: { mean: number; sigma: number; tolerance: Tolerance }): Sides {
  const lower = tolerance.lower === null ? null : (mean - tolerance.lower) / (3 * sigma);
  const upper = tolerance.upper === null ? null : (tolerance.upper - mean) / (3 * sigma);
  const both =
    tolerance.lower === null || tolerance.upper === null
      ? null
      : (tolerance.upper - tolerance.lower) / (6 * sigma);
  const worse = lower === null ? upper : upper === null ? lower : Math.min(lower, upper);
  return { both, lower, upper, worse };
}
