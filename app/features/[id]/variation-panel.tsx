import { use } from "react";
import { countedReadings } from "../../../lib/components/counted-readings";
import { type LotSignals, lotSignals } from "../../../lib/components/lot-signals";
import { chanceWords, differenceWords } from "../../../lib/components/test-words";
import { type SourceTest, sourceTests, type Variation, variationOf } from "../../../lib/components/variation";
import { fixed, measured, percent, withUnit } from "../../../lib/format/numbers";
import type { Words } from "../../../lib/words/words";
import { Note } from "../../fittings/note";
import { words } from "../../language/language";
import { ProblemNote, problemWords } from "../../problem";
import { type JudgedFeature, onceJudged } from "./judged-feature";
import styles from "./panels.module.css";

/** More of the latest readings than this change no figure that can be seen, and cost the page its time. */
const MOST_READINGS = 20_000;

const tested = onceJudged(({ history: { series }, evaluation }) => {
  const { positions, subgroupOf } = countedReadings(evaluation, { most: MOST_READINGS });
  const tests = sourceTests({ series, values: evaluation.values, positions });
  return { positions, subgroupOf, tests, lots: lotSignals(evaluation, { series, positions, tests }) };
});

/** By the language in which the shares are named. */
const variations = onceJudged(() => new Map<Words["language"], ReturnType<typeof variationOf>>());

function variationIn(
  judged: JudgedFeature,
  { language, otherCharts }: Words,
): ReturnType<typeof variationOf> {
  const known = variations(judged);
  const { series } = judged.history;
  const { values } = judged.evaluation;
  const { positions, subgroupOf } = tested(judged);
  const found =
    known.get(language) ??
    variationOf({ series, values, positions, subgroupOf, words: otherCharts.variation.shares });
  known.set(language, found);
  return found;
}

/** Where the variation comes from: shares of lots, fixtures and the rest, and a test of each kind of source. */
export function VariationPanel({ judged }: { judged: JudgedFeature }) {
  const { feature } = judged.history;
  const every = use(words());
  const { variation: said } = every.otherCharts;
  const { positions, tests, lots } = tested(judged);
  const variation = variationIn(judged, every);
  const figure = (value: number, extra: number) =>
    withUnit(measured(value, { resolution: feature.resolution, extra }), feature.unit);
  return (
    <details className={styles.fold}>
      <summary>{said.title}</summary>
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
  const { variation: said } = use(words()).otherCharts;
  return (
    <section>
      <h3>{sentence}</h3>
      <p className={styles.soft}>{said.of(readings, lots, isAll)}</p>
      <ul className={styles.shares}>
        {shares.map(({ words: name, share, sigma }) => (
          <li key={name}>
            <span>{name}</span>
            <ShareBar share={share ?? 0} />
            <span className={styles.figure}>{share === null ? "–" : percent(share)}</span>
            <span className={`${styles.figure} ${styles.sigma}`}>
              {sigma === null ? said.notApart : figure(sigma, 2)}
            </span>
          </li>
        ))}
      </ul>
      {shares
        .filter(({ share, sigma }) => share === null && sigma === null)
        .map(({ words: name }) => (
          <p key={name}>{said.notApartWhy(name)}</p>
        ))}
      <p className={styles.soft}>{said.method}</p>
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
  const { variation: said } = use(words()).otherCharts;
  return (
    <Note kind="remark" title={said.lotsDiffer(beyond, all)}>
      <p>{said.oneFact(beyond)}</p>
      {limits ? (
        <p>
          {said.offered({
            lower: figure(limits.lower, 1),
            upper: figure(limits.upper, 1),
            centre: figure(limits.centre, 1),
            sigma: figure(limits.sigma, 2),
          })}
        </p>
      ) : null}
    </Note>
  );
}

function Tests({ tests }: { tests: readonly SourceTest[] }) {
  const all = use(words());
  const { variation: said } = all.otherCharts;
  return (
    <section>
      <h3>{said.doDiffer}</h3>
      <ul className={styles.list}>
        {tests.map((test) => (
          <li key={test.kind}>{testWords(test, all)}</li>
        ))}
      </ul>
      <p className={styles.soft}>{said.anova}</p>
    </section>
  );
}

function testWords({ kind, groups, test }: SourceTest, { otherCharts, trade, problems }: Words): string {
  const { variation: said } = otherCharts;
  const many = said.many(groups, trade.sources[kind]);
  if (!test.ok) return said.problem(many, problemWords(test.problem, "test", problems));
  const { F, p, between, within } = test.value;
  if (F === null || p === null) return said.nothingWithin(many);
  return said.tested({
    many,
    differ: differenceWords(p, said),
    F: fixed(F, 2),
    between: between.degreesOfFreedom,
    within: within.degreesOfFreedom,
    chance: chanceWords(p, said),
  });
}
