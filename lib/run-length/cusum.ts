import { InvalidInput, requireFiniteNumbers } from "../checks";
import { normalCdf, normalDensity, normalUpperTail } from "../distributions/normal";
import { absorptionTimes } from "./absorption";
import { panelsOn } from "./panels";
import { FARTHEST_SHIFT } from "./run-length";

/** `reference` k and `decisionInterval` h, in sigma of the plotted point. */
export type CusumDesign = { reference: number; decisionInterval: number };

/** In sigma: sixteen nodes carry a normal density over this width to the last digits. */
const WIDEST_PANEL = 1.5;
const WIDEST_INTERVAL = 100;

/**
 * Average run length of a two-sided cumulative sum chart,
 *
 *   Cᵢ⁺ = max(0, Cᵢ₋₁⁺ + zᵢ − k),   Cᵢ⁻ = max(0, Cᵢ₋₁⁻ − zᵢ − k),   signal when one exceeds h
 *
 * with both sums begun at `headStart` (0, or h/2 for the fast initial response). From the one-sided run
 * lengths L⁺(u) and L⁻(u) of sums begun at u:
 *
 *   ARL = (L⁺(u)/L⁺(0) + L⁻(u)/L⁻(0) − 1) / (1/L⁺(0) + 1/L⁻(0))
 *
 * This is exact: while both sums are above 0 each point takes 2k off their total, so when one passes h the
 * other stands at 0. It needs 2u ≤ h + 2k, hence the bound on the head start.
 *
 * Points are independent and normal, `shift` sigma off the centre from the first one on.
 *
 * Source: J. M. Lucas and R. B. Crosier, Technometrics 24 (1982) 199-205 (from memory); ISO 7870-4.
 *
 * @throws InvalidInput when a number is not finite, k is below 0, h is not above 0 (to 100), the head start
 *   is not from 0 to h and at most h/2 + k, or the shift is beyond ±20
 */
export function cusumRunLength({
  reference,
  decisionInterval,
  headStart,
  shift,
}: CusumDesign & { headStart: number; shift: number }): number {
  const design = { reference, decisionInterval };
  requireDesign("cusumRunLength", { ...design, headStart, shift });
  const most = Math.min(decisionInterval, decisionInterval / 2 + reference);
  if (headStart > most) throw new InvalidInput("cusumRunLength", "headStart", headStart, `at most ${most}`);

  const upper = oneSided({ ...design, shift }, [0, headStart]);
  const lower = oneSided({ ...design, shift: -shift }, [0, headStart]);
  const begun = relative(upper) + relative(lower) - 1;
  return begun / (1 / upper[0]! + 1 / lower[0]!);
}

/**
 * Average run length of the upper sum alone, begun at `headStart`. For the lower one turn the shift round.
 *
 *   L(s) = 1 + Φ(k − s − shift) L(0) + ∫₀ʰ L(y) φ(y + k − s − shift) dy
 *
 * solved on Gauss-Legendre nodes with a state of its own for the sum of 0, where it often stands.
 *
 * Source: E. S. Page, Biometrika 41 (1954) 100-115; D. Brook and D. A. Evans, Biometrika 59 (1972) 539-549
 * (both from memory). Ours has nodes where theirs has equal cells, and many more digits.
 *
 * @throws InvalidInput as `cusumRunLength`, with a head start from 0 to h
 */
export function oneSidedCusumRunLength({
  reference,
  decisionInterval,
  headStart,
  shift,
}: CusumDesign & { headStart: number; shift: number }): number {
  const design = { reference, decisionInterval, shift };
  requireDesign("oneSidedCusumRunLength", { ...design, headStart });
  if (headStart > decisionInterval) {
    throw new InvalidInput("oneSidedCusumRunLength", "headStart", headStart, `at most ${decisionInterval}`);
  }
  return oneSided(design, [headStart])[0]!;
}

/** L(u) / L(0), 1 for sums that practically never signal. */
function relative([zero, begun]: readonly number[]): number {
  return Number.isFinite(zero) ? begun! / zero! : 1;
}

function oneSided(
  { reference, decisionInterval, shift }: CusumDesign & { shift: number },
  starts: readonly number[],
): number[] {
  const { points, weights } = panelsOn([0, decisionInterval], WIDEST_PANEL);
  const drift = reference - shift;
  // State 0 is the sum of 0, then the nodes.
  const chances = (sum: number) => {
    const row = new Float64Array(points.length + 1);
    row[0] = normalCdf(drift - sum);
    for (let j = 0; j < points.length; j++) {
      row[j + 1] = weights[j]! * normalDensity(points[j]! + drift - sum);
    }
    return row;
  };
  const sums = [0, ...points];
  const leaving = Float64Array.from(sums, (sum) => normalUpperTail(decisionInterval + drift - sum));
  const times = absorptionTimes(sums.map(chances), leaving);
  return starts.map((sum) => chances(sum).reduce((total, chance, j) => total + chance * times[j]!, 1));
}

function requireDesign(where: string, numbers: CusumDesign & { headStart: number; shift: number }): void {
  requireFiniteNumbers(where, { ...numbers });
  const { reference, decisionInterval, headStart, shift } = numbers;
  if (reference < 0) throw new InvalidInput(where, "reference", reference, "0 or more");
  if (!(decisionInterval > 0 && decisionInterval <= WIDEST_INTERVAL)) {
    const needs = `above 0 and at most ${WIDEST_INTERVAL}`;
    throw new InvalidInput(where, "decisionInterval", decisionInterval, needs);
  }
  if (headStart < 0) throw new InvalidInput(where, "headStart", headStart, "0 or more");
  if (Math.abs(shift) > FARTHEST_SHIFT) {
    throw new InvalidInput(where, "shift", shift, `within ±${FARTHEST_SHIFT}`);
  }
}
