import type { FeatureHistory } from "../../../db/queries/history";
import { countedReadings } from "../../../lib/components/counted-readings";
import { type LotSignals, lotSignals } from "../../../lib/components/lot-signals";
import { chanceWords, differenceWords } from "../../../lib/components/test-words";
import { type SourceTest, sourceTests, type Variation, variationOf } from "../../../lib/components/variation";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { counted, fixed, measured, percent, whole, withUnit } from "../../../lib/format/numbers";
import { Note } from "../../fittings/note";
import { ProblemNote, problemWords } from "../../problem";
import styles from "./panels.module.css";

/** More of the latest readings than this change no figure that can be seen, and cost the page its time. */
const MOST_READINGS = 20_000;

/** Where the variation comes from: shares of lots, fixtures and the rest, and a test of each kind of source. */
export function VariationPanel({ history, evaluation }: { history: FeatureHistory; evaluation: Evaluation }) {
  const { series, feature } = history;
  const { values } = evaluation;
  const { positions, subgroupOf } = countedReadings(evaluation, { most: MOST_READINGS });
  const variation = variationOf({ series, values, positions, subgroupOf });
  const tests = sourceTests({ series, values, positions });
  const lots = lotSignals(evaluation, { series, positions, tests });
  const figure = (value: number, extra: number) =>
    withUnit(measured(value, { resolution: feature.resolution, extra }), feature.unit);
  return (
    <details className={styles.fold}>
      <summary>Where the variation comes from</summary>
      <div className={styles.sheet}>
        {variation.ok ? (
          <Shares variation={variation.value} figure={figure} isAll={positions.length < MOST_READINGS} />
        ) : (
          <ProblemNote problem={variation.problem} figure="shares" />
        )}
        {lots ? <LotsDiffer lots={lots} figure={figure} /> : null}
        {tests.length > 0 ? <Tests tests={tests} /> : null}
      </div>
    </details>
  );
}

type Figure = (value: number, extra: number) => string;

function Shares({ variation, figure, isAll }: { variation: Variation; figure: Figure; isAll: boolean }) {
  const { shares, sentence, readings, lots } = variation;
  return (
    <section>
      <h3>{sentence}</h3>
      <p className={styles.soft}>
        Of the variance of {isAll ? "" : "the latest "}
        {counted(readings, "reading")} that count{readings === 1 ? "s" : ""}, in {counted(lots, "lot")}. Each
        share as a standard deviation of its own:
      </p>
      <ul className={styles.shares}>
        {shares.map(({ words, share, sigma }) => (
          <li key={words}>
            <span>{words}</span>
            <ShareBar share={share ?? 0} />
            <span className={styles.figure}>{share === null ? "–" : percent(share)}</span>
            <span className={`${styles.figure} ${styles.sigma}`}>
              {sigma === null ? "not told apart" : figure(sigma, 2)}
            </span>
          </li>
        ))}
      </ul>
      {shares
        .filter(({ share, sigma }) => share === null && sigma === null)
        .map(({ words }) => (
          <p key={words}>
            What varies {words} cannot be told apart: there is one reading to each. The line above it holds
            both.
          </p>
        ))}
      <p className={styles.soft}>
        Nested components of variance by the analysis of variance; a negative estimate counts as none. A share
        of lots holds all that differs from lot to lot: material, setup, the week.
      </p>
    </section>
  );
}

function ShareBar({ share }: { share: number }) {
  return (
    <svg width="100%" height="14" aria-hidden="true" focusable="false">
      <rect className={styles.shareGround} width="100%" height="14" />
      <rect className={styles.share} width={percentOf(share)} height="14" />
    </svg>
  );
}

function percentOf(share: number): string {
  return `${Math.round(1e4 * share) / 100}%`;
}

function LotsDiffer({ lots, figure }: { lots: LotSignals; figure: Figure }) {
  const { lots: all, beyond, limits } = lots;
  return (
    <Note kind="remark" title={`${beyond} of ${all} lots hold a mean beyond its limits, on both sides`}>
      <p>
        Lots differ by more than the readings within them, and the limits know only what varies within. So
        nearly every lot signals: one fact about the process, not {beyond} faults. Look for what changes from
        lot to lot, and judge lots against each other.
      </p>
      {limits ? (
        <p>
          Limits for the mean of a whole lot, from the moving ranges between lots: {figure(limits.lower, 1)}{" "}
          to {figure(limits.upper, 1)} about {figure(limits.centre, 1)} (sigma {figure(limits.sigma, 2)}).
          They are offered here and judge nothing.
        </p>
      ) : null}
    </Note>
  );
}

function Tests({ tests }: { tests: readonly SourceTest[] }) {
  return (
    <section>
      <h3>Do their means differ?</h3>
      <ul className={styles.list}>
        {tests.map((test) => (
          <li key={test.kind}>{testWords(test)}</li>
        ))}
      </ul>
      <p className={styles.soft}>
        One-way analysis of variance, each kind by itself: what lots share is not taken off, so a fixture that
        had the bad lots looks bad. The drift page compares within lots.
      </p>
    </section>
  );
}

function testWords({ kind, groups, test }: SourceTest): string {
  const many = counted(groups, kind);
  if (!test.ok) return `${many}: ${problemWords(test.problem, "test")}`;
  const { F, p, between, within } = test.value;
  if (F === null || p === null)
    return `${many}: nothing varies within them, so there is nothing to test against.`;
  return (
    `The ${many} ${differenceWords(p)}: F = ${fixed(F, 2)} with ${whole(between.degreesOfFreedom)} and ` +
    `${whole(within.degreesOfFreedom)} degrees of freedom; chance alone would do as much ${chanceWords(p)}.`
  );
}
