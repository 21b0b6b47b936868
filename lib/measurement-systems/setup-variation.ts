import { InvalidInput } from "../checks";
import { betweenInterval } from "../components/linear-combination";
import { nestedComponents } from "../components/nested";
import { type Computed, computed, problem } from "../computed";

export type SetupVariation = {
  /** Standard deviations, in the unit of the readings. */
  setup: number;
  repeatability: number;
  /** Of the setup's variance, where every setup has as many readings; null otherwise. */
  setupVarianceInterval: [lower: number, upper: number] | null;
  /** Share of the two variances together that setting up anew adds; null when nothing varies. */
  share: number | null;
  /** Probability of an F as large when setting up anew changes nothing; null when nothing repeats. */
  p: number | null;
  setups: number;
};

/**
 * What setting a portable gauge up anew adds to its readings: an arm or a tracker that was moved and aligned again
 * reads a piece a little differently, and readings within one setup never show it.
 *
 * `setups` names the setup of each reading of one and the same quantity, `pieces` the piece where several were
 * measured; each piece then has setups of its own in the analysis. Nested analysis of variance, component of the
 * setup within the piece.
 *
 * Source: NIST/SEMATECH e-Handbook 2.4.4 (nested sources of a gauge); lib/components/nested.
 *
 * @returns the problems "too-few-subgroups" below two setups of one piece, "too-few-readings" when none repeats
 * @throws InvalidInput when the lengths differ, a reading is not finite, or unless 0 < confidence < 1
 */
export function setupVariation({
  values,
  setups,
  pieces,
  confidence,
}: {
  values: ArrayLike<number>;
  setups: ArrayLike<number>;
  pieces: ArrayLike<number> | null;
  confidence: number;
}): Computed<SetupVariation> {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput("setupVariation", "confidence", confidence, "a probability between 0 and 1");
  }
  const levels = [
    // One piece needs no level of its own: the nested analysis asks for at least two classes on each.
    ...(pieces === null || isConstant(pieces) ? [] : [{ name: "piece", ids: pieces }]),
    { name: "setup", ids: setups },
  ];
  const found = nestedComponents({ values, levels });
  if (!found.ok) return found;
  const setup = found.value.lines.find(({ name }) => name === "setup")!;
  const within = found.value.lines.at(-1)!;
  if (setup.variance === null) return problem({ code: "too-few-subgroups", needed: 2, got: 1 });
  if (within.variance === null || within.meanSquare === null || setup.meanSquare === null) {
    return problem({ code: "too-few-readings", needed: values.length + 1, got: values.length });
  }
  const sizes = cellSizes(setups, pieces);
  const isBalanced = sizes.every((size) => size === sizes[0]);
  const total = setup.variance + within.variance;
  return computed({
    setup: Math.sqrt(setup.variance),
    repeatability: Math.sqrt(within.variance),
    setupVarianceInterval: isBalanced
      ? betweenInterval({
          between: { meanSquare: setup.meanSquare, degreesOfFreedom: setup.degreesOfFreedom },
          within: { meanSquare: within.meanSquare, degreesOfFreedom: within.degreesOfFreedom },
          size: sizes[0]!,
          confidence,
        })
      : null,
    share: total === 0 ? null : setup.variance / total,
    p: setup.p,
    setups: sizes.length,
  });
}

function isConstant(ids: ArrayLike<number>): boolean {
  for (let i = 1; i < ids.length; i++) if (ids[i] !== ids[0]) return false;
  return true;
}

/** Readings of each setup of each piece. */
function cellSizes(setups: ArrayLike<number>, pieces: ArrayLike<number> | null): number[] {
  const sizes = new Map<string, number>();
  for (let i = 0; i < setups.length; i++) {
    const key = `${pieces?.[i] ?? 0}/${setups[i]}`;
    sizes.set(key, (sizes.get(key) ?? 0) + 1);
  }
  return [...sizes.values()];
}
