import { gaussLegendre } from "../constants/gauss-legendre";

/**
 * An interval cut into panels of sixteen Gauss-Legendre nodes, on which a density is kept as the mass that
 * each node stands for (its weight times the density there).
 */
export type Panels = {
  points: Float64Array;
  weights: Float64Array;
  /** Ends of the panels, one more than there are panels. */
  edges: Float64Array;
};

/** Nodes of one panel; the rule on [−1, 1] from which every panel is made. */
const { points: ROOTS, weights: ROOT_WEIGHTS } = gaussLegendre({ from: -1, to: 1, panels: 1 });
const ORDER = ROOTS.length;

/** Panels between the cuts given, each piece split evenly so that none is wider than `widest`. */
export function panelsOn(cuts: readonly number[], widest: number): Panels {
  const points: number[] = [];
  const weights: number[] = [];
  const edges = [cuts[0]!];
  for (let piece = 1; piece < cuts.length; piece++) {
    const from = cuts[piece - 1]!;
    const to = cuts[piece]!;
    const panels = Math.max(1, Math.ceil((to - from) / widest));
    const rule = gaussLegendre({ from, to, panels });
    points.push(...rule.points);
    weights.push(...rule.weights);
    for (let k = 1; k <= panels; k++) edges.push(k === panels ? to : from + ((to - from) * k) / panels);
  }
  return {
    points: Float64Array.from(points),
    weights: Float64Array.from(weights),
    edges: Float64Array.from(edges),
  };
}

/**
 * For each node, the part of its mass that lies below x.
 *
 * The density in a panel is the polynomial through its nodes; below the panel's ends all or nothing counts,
 * and inside it, with ℓ the polynomial that is 1 at node j and 0 at the others,
 *
 *   ∫ ℓⱼ = wⱼ Σₖ (2k+1)/2 · Pₖ(xⱼ) ∫₋₁ˣ Pₖ,   ∫₋₁ˣ Pₖ = (Pₖ₊₁(x) − Pₖ₋₁(x)) / (2k+1)
 *
 * which is exact, as the rule integrates products of two such polynomials exactly.
 */
export function sharesBelow({ points, edges }: Panels, x: number): Float64Array {
  const shares = new Float64Array(points.length);
  for (let panel = 0; panel + 1 < edges.length; panel++) {
    const from = edges[panel]!;
    const to = edges[panel + 1]!;
    if (x >= to) shares.fill(1, panel * ORDER, (panel + 1) * ORDER);
    else if (x > from) shares.set(sharesInPanel((2 * (x - from)) / (to - from) - 1), panel * ORDER);
  }
  return shares;
}

function sharesInPanel(x: number): Float64Array {
  const here = legendre(x);
  const shares = new Float64Array(ORDER);
  for (let j = 0; j < ORDER; j++) {
    const node = AT_ROOTS[j]!;
    let sum = (x + 1) / 2;
    for (let k = 1; k < ORDER; k++) sum += (node[k]! * (here[k + 1]! - here[k - 1]!)) / 2;
    shares[j] = sum;
  }
  return shares;
}

/** P₀(x) … P₁₆(x). */
function legendre(x: number): number[] {
  const values = [1, x];
  for (let k = 2; k <= ORDER; k++) {
    values.push(((2 * k - 1) * x * values[k - 1]! - (k - 1) * values[k - 2]!) / k);
  }
  return values;
}

const AT_ROOTS: readonly number[][] = Array.from(ROOT_WEIGHTS, (_, j) => legendre(ROOTS[j]!));
