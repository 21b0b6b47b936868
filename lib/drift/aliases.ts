import { generalised, leave } from "./columns";
import { type ScannedSource, sourceKey } from "./measured-part";
import type { TableScan } from "./scan-table";
import { dot } from "./strata";
import { regressorOn } from "./test-hypotheses";
import type { Candidate, WeighedSource } from "./weigh-sources";

const ALIASED = 0.95;
const SHARED_SCOPE = 0.8;
const BEST_TRIED = 3;
const MOVED_T = 3;

/**
 * Sources that ran on nearly the same pieces as the one found: given the static offsets, their regressors
 * correlate above 0.95 with its, on at least 80 % of the features that moved. No arithmetic can tell them apart
 * but by which features moved.
 *
 * Source: the idea of minimal diagnosable classes, Zhou, Ding, Chen and Shi, Technometrics 45 (2003).
 */
export function aliasedSources(
  found: Candidate,
  others: readonly WeighedSource[],
  scans: readonly TableScan[],
): ScannedSource[] {
  const place = found.places[0];
  if (place === undefined || found.kind === "spread") return [];
  const scan = scans[place.table]!;
  const { hypotheses, prepared, tests, fit } = scan;
  const { scope } = hypotheses.carriers[hypotheses.all[place.k]!.carrier]!;
  const strong = scope.filter((f) => Math.abs(tests.t[place.k * tests.features + f]!) > MOVED_T);
  const moved = strong.length > 0 ? strong : scope;
  const d = prepared.features[moved[0]!]!.design;
  const design = prepared.designs[d]!;
  const plain = { lot: 0, cell: 0 };
  const gls = generalised(design.strata, fit.columns[d]!, plain);
  const rest = (k: number) => {
    const hypothesis = hypotheses.all[k]!;
    const column = regressorOn(prepared.designs, d, hypotheses.carriers[hypothesis.carrier]!, hypothesis);
    if (column === null) return null;
    const out = new Float64Array(column.length);
    leave(gls, column, out);
    const norm = Math.sqrt(dot(out, out));
    if (!(norm > 1e-6)) return null;
    for (let i = 0; i < out.length; i++) out[i]! /= norm;
    return out;
  };
  const own = rest(place.k);
  if (own === null) return [];
  return others
    .filter(({ source }) => source.kind !== "lot" && sourceKey(source) !== sourceKey(found.source))
    .filter(({ candidates }) =>
      [...candidates]
        .filter(({ kind }) => kind !== "spread")
        .sort((a, b) => b.tempered - a.tempered)
        .slice(0, BEST_TRIED)
        .some(({ places }) => {
          const there = places.find(({ table }) => table === place.table);
          if (there === undefined) return false;
          const otherScope = new Set(hypotheses.carriers[hypotheses.all[there.k]!.carrier]!.scope);
          if (moved.filter((f) => otherScope.has(f)).length < SHARED_SCOPE * moved.length) return false;
          const other = rest(there.k);
          return other !== null && Math.abs(dot(own, other)) > ALIASED;
        }),
    )
    .map(({ source }) => source);
}
