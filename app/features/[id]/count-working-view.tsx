import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import { limitsOf } from "../../../lib/chart/count-points";
import { chartAssumptions } from "../../../lib/evaluation/assumptions";
import { countWorking, sampleReader } from "../../../lib/evaluation/count-working";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { asEntered, fixed, whole } from "../../../lib/format/numbers";
import { standardiseLocation } from "../../../lib/limits/standardise";
import { isOfPieces, isPerUnit } from "../../../lib/plan/counts";
import type { CountPlan } from "../../../lib/plan/feature-plan";
import { words } from "../../language/language";
import styles from "./panels.module.css";
import { AssumptionList, WorkingList } from "./working-list";

/** Limits for a sample of n, as the trade writes them. */
const FORMULAS = {
  p: { limits: "p̄ ± 3√(p̄(1 − p̄)/n)", z: "(p − p̄) / √(p̄(1 − p̄)/n)" },
  np: { limits: "np̄ ± 3√(np̄(1 − p̄))", z: "(d − np̄) / √(np̄(1 − p̄))" },
  c: { limits: "c̄ ± 3√c̄", z: "(c − c̄) / √c̄" },
  u: { limits: "ū ± 3√(ū/n)", z: "(u − ū) / √(ū/n)" },
} as const;

/** How the limits of counts are computed, with the feature's own figures; nothing before there are any. */
export function CountWorkingView({
  history,
  evaluation,
  counts,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  counts: CountPlan;
}) {
  const { points, progress, versions } = evaluation;
  const { otherCharts, working, assumptions } = use(words());
  const { counts: said } = otherCharts;
  const frozen = history.limits;
  const found = countWorking(evaluation, { series: history.series, counts, frozen });
  const latest = points.limits.findLastIndex((version, at) => version >= 0 && points.excluded[at] === 0);
  const version = progress.limits;
  if (!found || !version || latest < 0) return null;
  const read = sampleReader(evaluation, { series: history.series, counts });
  const { size } = read(latest);
  const limits = limitsOf(version, { counts, size });
  if (!limits) return null;

  const { chart } = counts;
  const ofPieces = isOfPieces(chart);
  const places = isPerUnit(chart) ? 5 : 3;
  const units = ofPieces ? said.units.pieces : said.units.units;
  const [least, most] = spanOfSizes(read, points.count);
  const judgedBy = versions[points.limits[latest]!] ?? version;
  const z = standardiseLocation(judgedBy, { mean: points.mean[latest]!, size: points.size[latest]! });
  const span = ({ lower, upper }: { lower: number; upper: number }) =>
    working.fromTo(fixed(lower, places), fixed(upper, places));
  const often = (chance: number) => (chance > 0 ? said.falseAlarm(1 / chance) : said.noFalseAlarm);
  const sums = found.agrees ? said.sums(whole(found.counts), asEntered(found.inspected), found.samples) : "";
  return (
    <details className={styles.fold}>
      <summary>{said.computed}</summary>
      <div className={styles.sheet}>
        <section>
          <WorkingList
            lines={[
              [said.rate, said.rateIs(ofPieces ? "p̄" : "ū", units, sums, fixed(found.rate, 5))],
              [
                said.sample,
                least < most
                  ? said.sizes(asEntered(least), asEntered(most), asEntered(size), units)
                  : said.size(asEntered(size), units),
              ],
              [
                said.atThreeSigma,
                said.threeSigmaIs(
                  `${FORMULAS[chart].limits} = ${span(limits.threeSigma)}`,
                  often(limits.threeSigma.falseAlarm),
                ),
              ],
              [
                said.exact,
                said.exactIs(
                  ofPieces ? "binomial" : "Poisson",
                  span(limits.probability),
                  often(limits.probability.falseAlarm),
                ),
              ],
              [said.standardised, said.standardisedIs(FORMULAS[chart].z, fixed(z, 2))],
            ]}
          />
          <p className={styles.soft}>{said.source}</p>
        </section>
        <AssumptionList assumptions={chartAssumptions(evaluation, history.setup, assumptions)} />
      </div>
    </details>
  );
}

function spanOfSizes(read: (number: number) => { size: number }, count: number): [number, number] {
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let number = 0; number < count; number++) {
    const { size } = read(number);
    if (size < least) least = size;
    if (size > most) most = size;
  }
  return [least, most];
}
