import { InvalidInput, requireFinite } from "../checks";
import { type Computed, computed, problem } from "../computed";
import { fUpperTail } from "../distributions/f";

/** A level of the nesting, from the top (lot) down; `ids` names its class for each reading. */
export type Level = { name: string; ids: ArrayLike<number> };

export type ComponentLine = {
  /** The level's name; the last line is called "within". */
  name: string;
  sumOfSquares: number;
  degreesOfFreedom: number;
  meanSquare: number | null;
  /** Against the mean square that would be expected if this level added nothing; null on the last line. */
  F: number | null;
  p: number | null;
  /** Variance component as it comes out, below 0 where the readings say less than nothing; null when the
   *  level cannot be told apart from the one above or below it. */
  untruncated: number | null;
  /** The component with 0 for negative ones. */
  variance: number | null;
  /** Share of the sum of the components; null with `variance`, or when nothing varies. */
  share: number | null;
};

export type NestedComponents = { lines: ComponentLine[]; total: number; words: string };

const MOST_LEVELS = 4;

/**
 * Where does the variation come from: between lots, between the pieces of a lot, within a piece?
 *
 * Nested random model, x = μ + a_lot + b_piece(lot) + … + ε, each level a random sample from its own
 * normal source. With n_c readings in class c, M_i = number of readings' classes at level i:
 *
 *   SSᵢ      = Σ_c n_c (x̄_c − x̄_parent(c))²
 *   E[SSᵢ]   = dfᵢ σ²_within + Σ_{j ≥ i} kᵢⱼ σⱼ²
 *   kᵢⱼ      = Kᵢⱼ − Kᵢ₋₁,ⱼ,  Kᵢⱼ = Σ_c Σ_{d in c} n_d² / n_c  (c at level i, d at level j)
 *
 * Setting each sum of squares equal to its expectation, from the bottom up, gives the estimates (the
 * analysis-of-variance estimators, Henderson's first method; with equal numbers the usual ones). They
 * can come out negative and are then cut at 0; both are reported.
 *
 * A level whose classes are as many as its parents' (one piece a lot) cannot be told apart from the level
 * above; its line is null and the other keeps both. F compares a level's mean square with what it would be
 * without the level: the mean square below when numbers are equal, else the combination of those below that
 * has the right expectation, with Satterthwaite's degrees of freedom.
 *
 * Ids need only be unique within their parent: wafer 1 of cassette 1 and wafer 1 of cassette 2 differ.
 *
 * Source: S. R. Searle, G. Casella and C. E. McCulloch, Variance Components (1992), chapter 5 (from
 * memory); NIST/SEMATECH e-Handbook 3.5.1.4 for the balanced case.
 *
 * @returns the problem "too-few-subgroups" when the top level has one class, "too-few-readings" when no
 *   level can be told apart from another
 * @throws InvalidInput when there is no level or more than four (the last one above single readings),
 *   lengths differ, a name is empty, or a reading is not a finite number
 */
export function nestedComponents({
  values,
  levels,
}: {
  values: ArrayLike<number>;
  levels: readonly Level[];
}): Computed<NestedComponents> {
  const where = "nestedComponents";
  if (levels.length < 1 || levels.length > MOST_LEVELS) {
    throw new InvalidInput(where, "levels.length", levels.length, `from 1 to ${MOST_LEVELS}`);
  }
  for (const [i, { name, ids }] of levels.entries()) {
    if (name === "") throw new InvalidInput(where, `levels[${i}].name`, name, "a name");
    if (ids.length !== values.length) {
      throw new InvalidInput(where, `levels[${i}].ids.length`, ids.length, `${values.length}, one a reading`);
    }
  }
  requireFinite(where, "values", values);
  if (values.length < 2) return problem({ code: "too-few-readings", needed: 2, got: values.length });

  const nesting = nest(values, levels);
  const topClasses = nesting[1]!.counts.length;
  if (topClasses < 2) return problem({ code: "too-few-subgroups", needed: 2, got: topClasses });

  const names = [...levels.map((level) => level.name), "within"];
  const rows = names.map((name, i) => row(nesting, { name, level: i + 1 }));
  const estimable = rows.filter((one) => one.degreesOfFreedom > 0);
  if (estimable.length < 2) {
    return problem({ code: "too-few-readings", needed: values.length + 1, got: values.length });
  }
  return computed(solve(rows, estimable));
}

/** The classes of one depth: 0 is everything in one class, the last depth has a class a reading. */
type Depth = {
  classOf: Uint32Array;
  counts: Float64Array;
  means: Float64Array;
  parentOf: Uint32Array;
};

function nest(values: ArrayLike<number>, levels: readonly Level[]): Depth[] {
  const count = values.length;
  // Differences from one reading: a common offset would cost digits in every square.
  const shifted = Float64Array.from(values, (value) => value - values[0]!);
  const depths: Depth[] = [];
  let parents = new Uint32Array(count);
  depths.push(depth(shifted, { classOf: parents, parents, classes: 1 }));
  for (let k = 0; k <= levels.length; k++) {
    const ids = levels[k]?.ids;
    const classOf = new Uint32Array(count);
    const seen = new Map<number, Map<number, number>>();
    let classes = 0;
    for (let i = 0; i < count; i++) {
      if (ids === undefined) {
        classOf[i] = classes++;
        continue;
      }
      const siblings = seen.get(parents[i]!) ?? new Map<number, number>();
      seen.set(parents[i]!, siblings);
      const known = siblings.get(ids[i]!);
      classOf[i] = known ?? classes;
      if (known === undefined) siblings.set(ids[i]!, classes++);
    }
    depths.push(depth(shifted, { classOf, parents, classes }));
    parents = classOf;
  }
  return depths;
}

function depth(
  values: Float64Array,
  { classOf, parents, classes }: { classOf: Uint32Array; parents: Uint32Array; classes: number },
): Depth {
  const counts = new Float64Array(classes);
  const means = new Float64Array(classes);
  const residuals = new Float64Array(classes);
  const parentOf = new Uint32Array(classes);
  for (let i = 0; i < values.length; i++) {
    const c = classOf[i]!;
    counts[c]!++;
    means[c]! += values[i]!;
    parentOf[c] = parents[i]!;
  }
  for (let c = 0; c < classes; c++) means[c]! /= counts[c]!;
  for (let i = 0; i < values.length; i++) residuals[classOf[i]!]! += values[i]! - means[classOf[i]!]!;
  for (let c = 0; c < classes; c++) means[c]! += residuals[c]! / counts[c]!;
  return { classOf, counts, means, parentOf };
}

type Row = {
  name: string;
  sumOfSquares: number;
  degreesOfFreedom: number;
  /** kᵢⱼ for every row j; 0 above the row itself. The last one, of "within", is dfᵢ. */
  expectation: number[];
};

function row(depths: readonly Depth[], { name, level }: { name: string; level: number }): Row {
  const here = depths[level]!;
  const above = depths[level - 1]!;
  let sumOfSquares = 0;
  for (let c = 0; c < here.counts.length; c++) {
    sumOfSquares += here.counts[c]! * (here.means[c]! - above.means[here.parentOf[c]!]!) ** 2;
  }
  const expectation = depths
    .slice(1)
    .map((_, j) =>
      j + 1 < level ? 0 : shareOfSquares(depths, level, j + 1) - shareOfSquares(depths, level - 1, j + 1),
    );
  return { name, sumOfSquares, degreesOfFreedom: here.counts.length - above.counts.length, expectation };
}

/** Kᵢⱼ: Σ over classes d at depth j of n_d² / n of the class at depth i that holds d. */
function shareOfSquares(depths: readonly Depth[], i: number, j: number): number {
  let sum = 0;
  const { counts, parentOf } = depths[j]!;
  for (let d = 0; d < counts.length; d++) {
    let holder = d;
    if (j > i) {
      holder = parentOf[d]!;
      for (let k = j - 1; k > i; k--) holder = depths[k]!.parentOf[holder]!;
    }
    sum += counts[d]! ** 2 / depths[i]!.counts[holder]!;
  }
  return sum;
}

function solve(rows: readonly Row[], estimable: readonly Row[]): NestedComponents {
  // Every estimate is a combination of mean squares; keeping the weights gives Satterthwaite's terms too.
  const meanSquares = estimable.map((one) => one.sumOfSquares / one.degreesOfFreedom);
  const weights: number[][] = [];
  const lines = new Map<Row, ComponentLine>();
  for (let i = estimable.length - 1; i >= 0; i--) {
    const one = estimable[i]!;
    const coefficient = (j: number) => one.expectation[rows.indexOf(estimable[j]!)]! / one.degreesOfFreedom;
    const without = new Array<number>(estimable.length).fill(0);
    for (let j = i + 1; j < estimable.length; j++) {
      for (let l = j; l < estimable.length; l++) without[l]! += coefficient(j) * weights[j]![l]!;
    }
    const own = coefficient(i);
    weights[i] = without.map((weight, l) => ((l === i ? 1 : 0) - weight) / own);

    const untruncated = weights[i]!.reduce((sum, weight, l) => sum + weight * meanSquares[l]!, 0);
    const isLast = i === estimable.length - 1;
    lines.set(one, {
      name: one.name,
      sumOfSquares: one.sumOfSquares,
      degreesOfFreedom: one.degreesOfFreedom,
      meanSquare: meanSquares[i]!,
      ...(isLast ? { F: null, p: null } : againstBelow(i, { without, meanSquares, estimable })),
      untruncated,
      variance: Math.max(0, untruncated),
      share: null,
    });
  }
  const total = [...lines.values()].reduce((sum, line) => sum + line.variance!, 0);
  const all = rows.map((one): ComponentLine => {
    const line = lines.get(one);
    return line === undefined
      ? { name: one.name, ...NOT_ESTIMABLE }
      : { ...line, share: total === 0 ? null : line.variance! / total };
  });
  return { lines: all, total, words: inWords(all) };
}

const NOT_ESTIMABLE = {
  sumOfSquares: 0,
  degreesOfFreedom: 0,
  meanSquare: null,
  F: null,
  p: null,
  untruncated: null,
  variance: null,
  share: null,
};

function againstBelow(
  i: number,
  {
    without,
    meanSquares,
    estimable,
  }: { without: number[]; meanSquares: number[]; estimable: readonly Row[] },
): { F: number | null; p: number | null } {
  const parts = without.map((weight, l) => weight * meanSquares[l]!).slice(i + 1);
  const denominator = parts.reduce((sum, part) => sum + part, 0);
  if (denominator <= 0) return { F: null, p: null };
  // Satterthwaite: 1/ν = Σ (part/denominator)²/νₗ; ratios first, so that tiny squares cannot vanish.
  const reciprocal = parts.reduce(
    (sum, part, k) => sum + (part / denominator) ** 2 / estimable[i + 1 + k]!.degreesOfFreedom,
    0,
  );
  const F = meanSquares[i]! / denominator;
  return { F, p: fUpperTail(F, { numerator: estimable[i]!.degreesOfFreedom, denominator: 1 / reciprocal }) };
}

function inWords(lines: readonly ComponentLine[]): string {
  const parts = lines.filter((line) => line.share !== null);
  if (parts.length === 0) return "Nothing varies: all readings are alike.";
  const largest = parts.reduce((most, line) => (line.share! > most.share! ? line : most));
  const shares = parts.map((line) => `${line.name} ${Math.round(100 * line.share!)} %`).join(", ");
  const unknown = lines.filter((line) => line.share === null).map((line) => line.name);
  const rest = unknown.length === 0 ? "" : ` Not told apart from its neighbours: ${unknown.join(", ")}.`;
  return `Most of the variation is ${largest.name} (${shares}).${rest}`;
}
