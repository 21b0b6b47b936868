import type { FeatureHistory } from "../../../db/queries/history";
import { spanOf } from "../../../lib/chart/scale";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { attributeLimits } from "../../../lib/charts/attribute";
import { chartAssumptions } from "../../../lib/evaluation/assumptions";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { Pattern } from "../../../lib/evaluation/patterns";
import { COUNT_CHART_WORDS } from "../../../lib/format/names";
import { counted, fixed, whole } from "../../../lib/format/numbers";
import { shortMomentIn } from "../../../lib/format/times";
import { isOfPieces, isPerUnit } from "../../../lib/plan/counts";
import type { CountPlan, LimitsVersion } from "../../../lib/plan/feature-plan";
import { LinkTabs } from "../../fittings/controls";
import { RulePhrase } from "../../fittings/rule-words";
import { Table } from "../../fittings/table";
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
      when: shortMomentIn(points.at[number]!, zone),
      count: whole(count),
      plotted: scale === 1 ? "" : fixed(plotted(count), places),
      beyond,
      standing: isLeftOut ? "left out" : beyond ? "beyond a limit" : "",
    };
  });
  const name = COUNT_CHART_WORDS[counts.chart];

  return (
    <>
      <LinkTabs
        label="Limits drawn"
        links={[
          { href: addressOf("threeSigma"), label: "3 sigma, judged", isCurrent: kind === "threeSigma" },
          { href: addressOf("probability"), label: "Exact probability", isCurrent: kind === "probability" },
        ]}
      />
      <PlainChart
        label="Counts on the chart"
        view={{
          name: name.charAt(0).toUpperCase() + name.slice(1),
          along: "Sample",
          places,
          domain: spanOf(
            [
              0,
              ...numbers.map((number) => plotted(points.mean[number]!)),
              ...drawn.flatMap((one) => one?.upper ?? []),
            ],
            { margin: 0.06 },
          ),
          points: numbers.map((number, i) => ({
            number: numberOf(number),
            values: [points.excluded[number] === 1 ? null : plotted(points.mean[number]!)],
            beyond: [rows[i]!.beyond],
            spoken: `Sample ${numberOf(number)}, ${rows[i]!.when}: ${written(points.mean[number]!)} on ${counts.size}${rows[i]!.standing === "" ? "" : `, ${rows[i]!.standing}`}`,
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
        <h3>Signals, by the run rules in force at 3 sigma</h3>
        {patterns.length === 0 ? <p>None in {counted(points.count, "sample")}.</p> : null}
        <ul className={`${styles.list} ${styles.signals}`}>
          {patterns
            .slice(-MOST_LISTED)
            .reverse()
            .map((pattern) => (
              <li key={`${pattern.rule} ${pattern.direction} ${pattern.firstAt}`}>
                <RulePhrase slug={pattern.rule} direction={pattern.direction} />, {samplesWords(pattern)},{" "}
                {shortMomentIn(pattern.firstTime, zone)}
              </li>
            ))}
        </ul>
      </section>
      <details className={styles.fold}>
        <summary>
          The samples as a table: {numberOf(window.from)} to {numberOf(window.to)}
        </summary>
        <Table
          caption={`Counts on ${counts.size} each, samples ${numberOf(window.from)} to ${numberOf(window.to)}`}
          columns={[
            { key: "number", head: "Sample", figures: true, cell: (row: Row) => row.number },
            { key: "when", head: "Counted", tight: true, cell: (row: Row) => row.when },
            { key: "count", head: "Count", figures: true, cell: (row: Row) => row.count },
            ...(scale === 1
              ? []
              : [
                  {
                    key: "plotted",
                    head: "Per piece or unit",
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
          assumptions={chartAssumptions(evaluation, history.setup)}
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

function samplesWords({ members }: Pattern): string {
  const first = numberOf(members[0] ?? 0);
  const last = numberOf(members.at(-1) ?? 0);
  return first === last ? `sample ${first}` : `samples ${first} to ${last}`;
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
  const bar = ofPieces ? "p̄" : "ū";
  const formula = {
    p: "p̄ ± 3√(p̄(1 − p̄)/n)",
    np: "np̄ ± 3√(np̄(1 − p̄))",
    c: "c̄ ± 3√c̄",
    u: "ū ± 3√(ū/n)",
  }[chart];
  const span = ({ lower, upper }: Drawn) => `${fixed(lower, places)} to ${fixed(upper, places)}`;
  const often = (chance: number) =>
    chance > 0 ? `one false alarm in ${whole(1 / chance)} samples` : "practically no false alarm";
  return (
    <details className={styles.fold}>
      <summary>How the limits of counts are computed</summary>
      <div className={styles.sheet}>
        <section>
          <WorkingList
            lines={[
              [
                "Rate",
                `${bar} = Σ counts / Σ ${ofPieces ? "pieces" : "units"} of the baseline = ${fixed(rate, 5)}`,
              ],
              ["Sample", `n = ${size} ${ofPieces ? "pieces" : "units"}, always as many (control plan)`],
              [
                "Limits at 3 sigma",
                `${formula} = ${span(threeSigma)}, cut at what is possible; ${often(threeSigma.falseAlarm)}`,
              ],
              [
                "Exact limits",
                `at most 0.135 % beyond on either side by the ${ofPieces ? "binomial" : "Poisson"} distribution: ${span(probability)}; ${often(probability.falseAlarm)}`,
              ],
            ]}
          />
          <p className={styles.soft}>
            ASTM E2587 and ISO 7870-2 (from memory); probability limits: common practice on the exact
            distribution. A count at a limit is no signal. Signals and alarms go by 3 sigma.
          </p>
        </section>
        <AssumptionList assumptions={assumptions} />
      </div>
    </details>
  );
}
