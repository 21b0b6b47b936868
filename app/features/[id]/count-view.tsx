import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import { axisSpans } from "../../../lib/chart/axis-spans";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { attributeLimits } from "../../../lib/charts/attribute";
import { chartAssumptions } from "../../../lib/evaluation/assumptions";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { Pattern } from "../../../lib/evaluation/patterns";
import { fixed, whole } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import { isOfPieces, isPerUnit } from "../../../lib/plan/counts";
import type { CountPlan, LimitsVersion } from "../../../lib/plan/feature-plan";
import { LinkTabs } from "../../fittings/controls";
import { RulePhrase } from "../../fittings/rule-words";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import type { CountLimitsKind } from "./chart-choice";
import { numberOf } from "./chart-view";
import { PlainChart } from "./later-chart";
import styles from "./panels.module.css";
import { AssumptionList, WorkingList } from "./working-list";

const MOST_LISTED = 20;

/** Counts on a p, np, c or u chart: judged at 3 sigma, with exact probability limits to be looked at beside. */
export function CountView({
  history,
  evaluation,
  counts,
  patterns,
  window,
  kind,
  addressOf,
  zone,
}: {
  history: FeatureHistory;
  evaluation: Evaluation;
  counts: CountPlan;
  patterns: readonly Pattern[];
  window: ShownWindow;
  kind: CountLimitsKind;
  /** The page's address with the other limits. */
  addressOf: (kind: CountLimitsKind) => string;
  zone: string;
}) {
  const { points, versions, progress } = evaluation;
  const { otherCharts, charts, assumptions, features, times } = use(words());
  const { counts: said } = otherCharts;
  const scale = isPerUnit(counts.chart) ? counts.size : 1;
  const places = isPerUnit(counts.chart) ? Math.min(6, 2 + Math.ceil(Math.log10(counts.size))) : 2;
  const plotted = (count: number) => count / scale;
  const written = (count: number) =>
    scale === 1 ? whole(count) : `${fixed(plotted(count), places)} (${whole(count)})`;
  const limits = new Map(versions.map((version) => [version, limitsOf(version, counts)]));
  const numbers = Array.from({ length: window.to - window.from + 1 }, (_, i) => window.from + i);
  const drawn = numbers.map((number) => {
    const version = versions[points.limits[number]!];
    return version ? (limits.get(version)?.[kind] ?? null) : null;
  });
  const rows = numbers.map((number, i): Row => {
    const count = points.mean[number]!;
    const own = drawn[i];
    const isLeftOut = points.excluded[number] === 1;
    const beyond = !isLeftOut && own != null && isBeyond(count, own, scale);
    return {
      number: numberOf(number),
      when: shortMomentIn(points.at[number]!, zone, times),
      count: whole(count),
      plotted: scale === 1 ? "" : fixed(plotted(count), places),
      beyond,
      standing: isLeftOut ? said.leftOut : beyond ? said.beyond : "",
    };
  });
  const [from, to] = [numberOf(window.from), numberOf(window.to)];
  const name = charts.counts[counts.chart];

  return (
    <>
      <LinkTabs
        label={said.drawn}
        links={[
          { href: addressOf("threeSigma"), label: said.threeSigma, isCurrent: kind === "threeSigma" },
          { href: addressOf("probability"), label: said.probability, isCurrent: kind === "probability" },
        ]}
      />
      <PlainChart
        label={said.onChart}
        words={{ ...otherCharts.plain, offAxis: features.chart.offAxis }}
        view={{
          name: name.charAt(0).toUpperCase() + name.slice(1),
          along: said.sample,
          places,
          axis: axisSpans(
            numbers.map((number) => plotted(points.mean[number]!)),
            { kept: [0, ...drawn.flatMap((one) => one?.upper ?? [])], margin: 0.06 },
          ),
          points: numbers.map((number, i) => ({
            number: numberOf(number),
            values: [points.excluded[number] === 1 ? null : plotted(points.mean[number]!)],
            beyond: [rows[i]!.beyond],
            spoken: said.spoken({
              ...rows[i]!,
              count: written(points.mean[number]!),
              size: counts.size,
            }),
          })),
          limits: [
            { name: "upper", kind: "limit", values: drawn.map((one) => one?.upper ?? null) },
            { name: "centre", kind: "centre", values: drawn.map((one) => one?.centre ?? null) },
            {
              name: "lower",
              kind: "limit",
              values: drawn.map((one) => (one && one.lower > 0 ? one.lower : null)),
            },
          ],
          groups: [],
        }}
      />
      <section>
        <h3>{said.signals}</h3>
        {patterns.length === 0 ? <p>{otherCharts.noneIn.samples(points.count)}</p> : null}
        <ul className={`${styles.list} ${styles.signals}`}>
          {patterns
            .slice(-MOST_LISTED)
            .reverse()
            .map((pattern) => (
              <li key={`${pattern.rule} ${pattern.direction} ${pattern.firstAt}`}>
                <RulePhrase slug={pattern.rule} direction={pattern.direction} />,{" "}
                {said.numbers(numberOf(pattern.members[0] ?? 0), numberOf(pattern.members.at(-1) ?? 0))},{" "}
                {shortMomentIn(pattern.firstTime, zone, times)}
              </li>
            ))}
        </ul>
      </section>
      <details className={styles.fold}>
        <summary>{said.summary(from, to)}</summary>
        <Table
          caption={said.caption(counts.size, from, to)}
          columns={[
            { key: "number", head: said.sample, figures: true, cell: (row: Row) => row.number },
            { key: "when", head: said.heads.when, tight: true, cell: (row: Row) => row.when },
            { key: "count", head: said.heads.count, figures: true, cell: (row: Row) => row.count },
            ...(scale === 1
              ? []
              : [
                  {
                    key: "plotted",
                    head: said.heads.plotted,
                    figures: true,
                    cell: (row: Row) => row.plotted,
                  },
                ]),
            { key: "standing", head: "", cell: (row: Row) => row.standing },
          ]}
          rows={rows}
          rowKey={({ number }) => number}
        />
      </details>
      {progress.limits && progress.limits.sigma > 0 ? (
        <Computed
          version={progress.limits}
          counts={counts}
          assumptions={chartAssumptions(evaluation, history.setup, assumptions)}
        />
      ) : null}
    </>
  );
}

type Row = {
  number: number;
  when: string;
  count: string;
  plotted: string;
  beyond: boolean;
  standing: string;
};
type Drawn = { lower: number; centre: number; upper: number };

function limitsOf(version: LimitsVersion, { chart, size }: CountPlan) {
  if (version.sigma <= 0) return null;
  return attributeLimits(chart, { rate: version.centre / size, size });
}

/** A limit that is a whole number of pieces may differ from a share in its last bit. */
const ROUNDING = 1e-9;

function isBeyond(count: number, { lower, upper }: Drawn, scale: number): boolean {
  return count > upper * scale + ROUNDING || count < lower * scale - ROUNDING;
}

function Computed({
  version,
  counts,
  assumptions,
}: {
  version: LimitsVersion;
  counts: CountPlan;
  assumptions: ReturnType<typeof chartAssumptions>;
}) {
  const { chart, size } = counts;
  const ofPieces = isOfPieces(chart);
  const rate = version.centre / size;
  const { threeSigma, probability } = attributeLimits(chart, { rate, size });
  const perUnit = isPerUnit(chart);
  const places = perUnit ? 5 : 3;
  const { otherCharts, working } = use(words());
  const { counts: said } = otherCharts;
  const units = ofPieces ? said.units.pieces : said.units.units;
  const bar = ofPieces ? "p̄" : "ū";
  const formula = {
    p: "p̄ ± 3√(p̄(1 − p̄)/n)",
    np: "np̄ ± 3√(np̄(1 − p̄))",
    c: "c̄ ± 3√c̄",
    u: "ū ± 3√(ū/n)",
  }[chart];
  const span = ({ lower, upper }: Drawn) => working.fromTo(fixed(lower, places), fixed(upper, places));
  const often = (chance: number) => (chance > 0 ? said.falseAlarm(1 / chance) : said.noFalseAlarm);
  return (
    <details className={styles.fold}>
      <summary>{said.computed}</summary>
      <div className={styles.sheet}>
        <section>
          <WorkingList
            lines={[
              [said.rate, said.rateIs(bar, units, fixed(rate, 5))],
              [said.sample, said.size(size, units)],
              [
                said.atThreeSigma,
                said.threeSigmaIs(`${formula} = ${span(threeSigma)}`, often(threeSigma.falseAlarm)),
              ],
              [
                said.exact,
                said.exactIs(
                  ofPieces ? "binomial" : "Poisson",
                  span(probability),
                  often(probability.falseAlarm),
                ),
              ],
            ]}
          />
          <p className={styles.soft}>{said.source}</p>
        </section>
        <AssumptionList assumptions={assumptions} />
      </div>
    </details>
  );
}
