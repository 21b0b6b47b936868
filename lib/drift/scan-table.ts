import type { Correlations } from "./common-news";
import type { Prepared } from "./design";
import { evidenceOf, type Overdispersion, overdispersionOf, type TableEvidence } from "./evidence";
import { type Fit, fitStatics } from "./fit";
import { type Hypotheses, hypothesesOn } from "./hypotheses";
import type { ScannedSource } from "./measured-part";
import { memoryFactors } from "./piece-memory";
import { once, type ScatterAsked, scatterHere, scatterOf } from "./scatter";
import type { Sparse } from "./sparse";
import type { SpreadEvidence, SpreadHypothesis } from "./spread";
import { regressorOn, type Tests, testHypotheses } from "./test-hypotheses";

/** What has been explained on a table so far: hypotheses taken into its model, and sources known to scatter. */
export type Explained = { hypotheses: readonly number[]; spread: readonly SpreadHypothesis[] };

export const NOTHING_EXPLAINED: Explained = { hypotheses: [], spread: [] };

/** What a table says of means: it stays the same while only scatter is explained. */
type Means = {
  hypotheses: Hypotheses;
  fit: Fit;
  correlations: () => Correlations;
  tests: Tests;
  /** By carrier of hypotheses. */
  memory: Float64Array;
  overdispersion: Overdispersion;
  evidence: () => TableEvidence;
};

/**
 * One table, fitted, tested and pooled. Pooled when it is asked for: a second look at a source asks for what is
 * explained, and not for what is left.
 *
 * A class, so that all scans have one shape for the compiler: read as often as they are, objects put together with
 * getters took longer to look into than to compute with.
 */
export class TableScan {
  readonly hypotheses: Hypotheses;
  readonly fit: Fit;
  readonly tests: Tests;
  readonly memory: Float64Array;
  readonly overdispersion: Overdispersion;
  private pooledMeans: TableEvidence | null = null;
  private pooledSpread: SpreadEvidence | null = null;

  constructor(
    readonly prepared: Prepared,
    readonly explained: Explained,
    readonly means: Means,
    private readonly spreadOf: () => SpreadEvidence,
  ) {
    this.hypotheses = means.hypotheses;
    this.fit = means.fit;
    this.tests = means.tests;
    this.memory = means.memory;
    this.overdispersion = means.overdispersion;
  }

  get correlations(): Correlations {
    return this.means.correlations();
  }

  get evidence(): TableEvidence {
    this.pooledMeans ??= this.means.evidence();
    return this.pooledMeans;
  }

  get spread(): SpreadEvidence {
    this.pooledSpread ??= this.spreadOf();
    return this.pooledSpread;
  }
}

/**
 * @param before the same table with less explained, if it was scanned already: what did not change is kept
 * @param askScatter who works out how pieces scatter
 */
export function scanTable(
  prepared: Prepared,
  explained: Explained,
  { before = null, askScatter = scatterHere }: { before?: TableScan | null; askScatter?: ScatterAsked } = {},
): TableScan {
  const known = explained.spread;
  if (before !== null && sameHypotheses(before.explained, explained)) {
    const { means, fit, correlations } = before;
    const { spread } = askScatter({ scatter: scatterOf(fit), known, correlations });
    return new TableScan(prepared, explained, means, spread);
  }
  const hypotheses = before?.hypotheses ?? hypothesesOn(prepared);
  const fit = fitStatics(prepared, regressorsOn(prepared, hypotheses, explained));
  // Asked for before the tests, beside which it may be worked out.
  const { correlations, spread } = askScatter({ scatter: scatterOf(fit), known, correlations: null });
  return new TableScan(prepared, explained, meansOf(fit, hypotheses, correlations), spread);
}

function sameHypotheses(a: Explained, b: Explained): boolean {
  return a.hypotheses.length === b.hypotheses.length && a.hypotheses.every((k, i) => k === b.hypotheses[i]);
}

function meansOf(fit: Fit, hypotheses: Hypotheses, correlations: () => Correlations): Means {
  const tests = testHypotheses(fit, hypotheses);
  const memory = memoryFactors(fit, hypotheses.carriers);
  const overdispersion = overdispersionOf(tests, hypotheses, memory);
  const evidence = once(() =>
    evidenceOf({ fit, hypotheses, tests, correlations: correlations(), overdispersion, memory }),
  );
  return { hypotheses, fit, correlations, tests, memory, overdispersion, evidence };
}

/** Of what has been explained, by design. */
function regressorsOn(prepared: Prepared, hypotheses: Hypotheses, explained: Explained): Float64Array[][] {
  const regressors = explained.hypotheses.map((k) => regressorsOf(prepared, hypotheses, k));
  return prepared.designs.map((_, d) => regressors.flatMap((on) => on[d] ?? []));
}

/** By design that it touches; one column for designs that have the source's pieces in common. */
function regressorsOf(
  { designs }: Prepared,
  { all, carriers }: Hypotheses,
  k: number,
): (Float64Array | null)[] {
  const hypothesis = all[k]!;
  const carrier = carriers[hypothesis.carrier]!;
  const scope = new Set(carrier.scope);
  const made = new Map<Sparse, Float64Array>();
  return designs.map(({ features }, d) => {
    const sparse = carrier.on[d];
    if (!sparse || !features.some((f) => scope.has(f))) return null;
    const column = made.get(sparse) ?? regressorOn(designs, d, carrier, hypothesis);
    if (column !== null) made.set(sparse, column);
    return column;
  });
}

/**
 * The same table with the evidence against one source weighed by how features scatter, and scatter together, once
 * what is held against it is explained; other sources keep no evidence.
 *
 * A fault that shows in many features makes them look alike, and tests scatter: by these measures alone it would
 * take most of its own evidence away.
 */
export function onItsOwnTerms(scan: TableScan, explained: TableScan, source: ScannedSource): TableScan {
  const { correlations, overdispersion } = explained;
  const { prepared, hypotheses, fit, tests, memory } = scan;
  const evidence = () => evidenceOf({ fit, hypotheses, tests, memory, correlations, overdispersion }, source);
  return new TableScan(prepared, scan.explained, { ...scan.means, evidence }, () => scan.spread);
}
