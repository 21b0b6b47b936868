import { InvalidInput, requireFiniteNumbers } from "../checks";
import { normalDensity, normalUpperTail } from "../distributions/normal";
import { absorptionTimes } from "./absorption";
import { type Panels, panelsOn } from "./panels";
import { FARTHEST_SHIFT } from "./run-length";

/** `smoothing` λ; `width` L, the half-width of the limits in sigma of the smoothed value. */
export type EwmaDesign = { smoothing: number; width: number };

/** "steady": the limits of a long run from the first point on; "exact": those of each point's own variance. */
export type EwmaLimitsKind = "steady" | "exact";

/** In sigma of one new point's weight, which is λ. */
const WIDEST_PANEL = 2.5;
const LEAST_SMOOTHING = 0.001;
const LEAST_SMOOTHING_EXACT = 0.01;
const WIDEST = 12;

/** A normal density beyond this is below 1e-18. */
const FARTHEST = 9;
const SQRT_TWO_PI = Math.sqrt(2 * Math.PI);

/** Limits nearer than this to their final place, relative, count as final. */
const FINAL = 1e-12;

/**
 * Average run length of an exponentially weighted moving average chart,
 *
 *   zᵢ = λ xᵢ + (1 − λ) zᵢ₋₁,  z₀ = 0,   signal when abs zᵢ > L √(λ/(2 − λ) · [1 − (1 − λ)²ⁱ])
 *
 * in sigma of the plotted point; "steady" limits leave out the bracket. Points are independent and normal,
 * `shift` sigma off the centre from the first one on. The run length a(z) from a smoothed value z solves
 *
 *   a(z) = 1 + (1/λ) ∫ a(y) φ((y − (1 − λ) z)/λ − shift) dy   over abs y within the limit
 *
 * on Gauss-Legendre nodes. With exact limits it is first solved for the limit far along, then carried back
 * point by point to the first one with the limit of each. Narrow limits at the start notice an early shift
 * sooner, and cost false alarms there: λ = 0.2, L = 2.962 gives 500 points in control with
 * steady and 494 with exact limits, 10.5 and 9.6 at one sigma.
 *
 * Source: J. M. Lucas and M. S. Saccucci, Technometrics 32 (1990) 1-12; S. V. Crowder, Technometrics 29
 * (1987) 401-407 (both from memory); ISO 7870-6.
 *
 * @throws InvalidInput when a number is not finite, λ is not from 0.001 (0.01 with exact limits) to 1, L is
 *   not above 0 (to 12), or the shift is beyond ±20
 */
export function ewmaRunLength({
  smoothing,
  width,
  limits,
  shift,
}: EwmaDesign & { limits: EwmaLimitsKind; shift: number }): number {
  requireDesign({ smoothing, width, shift }, limits);
  const steadyLimit = width * Math.sqrt(smoothing / (2 - smoothing));
  // Nodes on [−1, 1], to be stretched to whatever the limit is.
  const nodes = panelsOn([-1, 1], (WIDEST_PANEL * smoothing) / steadyLimit);
  const chart: Chart = { smoothing, shift, nodes };

  const rows = Array.from(nodes.points, (x) => moves(chart, { from: x * steadyLimit, limit: steadyLimit }));
  const leaving = nodes.points.map((x) =>
    leavingChance(chart, { from: x * steadyLimit, limit: steadyLimit }),
  );
  let times = absorptionTimes(rows, leaving);
  if (limits === "steady") return after(chart, { from: 0, limit: steadyLimit }, times);

  const limitAt = (point: number) => steadyLimit * Math.sqrt(-Math.expm1(2 * point * Math.log1p(-smoothing)));
  const last = smoothing === 1 ? 1 : Math.ceil(Math.log(FINAL) / (2 * Math.log1p(-smoothing)));
  for (let point = last; point > 1; point--) {
    const limit = limitAt(point);
    const from = limitAt(point - 1);
    const later = times;
    times = nodes.points.map((x) => after(chart, { from: x * from, limit }, later));
  }
  return after(chart, { from: 0, limit: limitAt(1) }, times);
}

type Chart = { smoothing: number; shift: number; nodes: Panels };
type Passage = { from: number; limit: number };

/** Weights of the nodes, stretched to the limit, after one more point. */
function moves({ smoothing, shift, nodes }: Chart, { from, limit }: Passage): Float64Array {
  const centre = ((1 - smoothing) * from) / smoothing + shift;
  const scale = limit / smoothing;
  return nodes.points.map((x, j) => nodes.weights[j]! * scale * normalDensity(x * scale - centre));
}

function leavingChance({ smoothing, shift }: Chart, { from, limit }: Passage): number {
  const centre = ((1 - smoothing) * from) / smoothing + shift;
  const scale = limit / smoothing;
  return normalUpperTail(scale - centre) + normalUpperTail(scale + centre);
}

/** 1 + Σ chance · time; a loop of its own, for exact limits ask this for every node of every early point. */
function after({ smoothing, shift, nodes }: Chart, { from, limit }: Passage, times: Float64Array): number {
  const { points, weights } = nodes;
  const scale = limit / smoothing;
  const centre = ((1 - smoothing) * from) / smoothing + shift;
  let sum = 0;
  for (let j = 0; j < points.length; j++) {
    const z = points[j]! * scale - centre;
    if (z > -FARTHEST && z < FARTHEST) sum += weights[j]! * times[j]! * Math.exp(-0.5 * z * z);
  }
  return 1 + (sum * scale) / SQRT_TWO_PI;
}

function requireDesign(numbers: EwmaDesign & { shift: number }, limits: EwmaLimitsKind): void {
  const where = "ewmaRunLength";
  requireFiniteNumbers(where, { ...numbers });
  const { smoothing, width, shift } = numbers;
  if (limits !== "steady" && limits !== "exact") {
    throw new InvalidInput(where, "limits", limits, "steady or exact");
  }
  const least = limits === "exact" ? LEAST_SMOOTHING_EXACT : LEAST_SMOOTHING;
  if (!(smoothing >= least && smoothing <= 1)) {
    throw new InvalidInput(where, "smoothing", smoothing, `from ${least} to 1`);
  }
  if (!(width > 0 && width <= WIDEST)) {
    throw new InvalidInput(where, "width", width, `above 0 and at most ${WIDEST}`);
  }
  if (Math.abs(shift) > FARTHEST_SHIFT) {
    throw new InvalidInput(where, "shift", shift, `within ±${FARTHEST_SHIFT}`);
  }
}
