import { use } from "react";
import { presentable } from "../../../lib/capability/gate-outcome";
import { testWords } from "../../../lib/capability/test-words";
import { judgedTolerance } from "../../../lib/capability/tolerance";
import { percent } from "../../../lib/capability/words";
import { computed, problem } from "../../../lib/computed";
import type { StatedFeature, StatedReadings, StatementContent } from "../../../lib/statement/content";
import { statedPictures } from "../../../lib/statement/figures";
import { exclusionsInWindow, samplePlanWords, statedWords } from "../../../lib/statement/words";
import { Facts } from "../../fittings/facts";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { Num } from "../../fittings/num";
import { Section } from "../../fittings/page-frame";
import { StateShape } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { Cautions } from "../[id]/cautions";
import styles from "../[id]/detail.module.css";
import { formulaLines } from "../[id]/formula-lines";
import { countedLines, modelLines } from "../[id]/further-lines";
import { HistogramPicture } from "../[id]/histogram-picture";
import { HowComputed } from "../[id]/how-computed";
import { IndexTable } from "../[id]/index-table";
import { LotPicture } from "../[id]/lot-picture";
import { OutsideTable } from "../[id]/outside-table";
import { ProbabilityPicture } from "../[id]/probability-picture";
import { GateMarks } from "../gate-marks";
import own from "./statements.module.css";

const TONES = { capability: "done", performance: "act", none: "none" } as const;

/** All features of a statement: what can be said of each, and what was measured. `hrefOf` opens one, numbered from 1. */
export function StatementOverview({
  content,
  hrefOf,
}: {
  content: StatementContent;
  hrefOf: (sheet: number) => string;
}) {
  const language = use(words());
  const { statements } = language;
  const { sheet: said } = statements;
  const { heads } = said;
  const rows = content.features.map((feature, i) => ({
    sheet: i + 1,
    feature,
    words: statedWords(feature, language),
  }));
  return (
    <>
      {rows.every(({ words: { isWhole } }) => isWhole) ? null : (
        <Note kind="remark">{statements.asSignedIn}</Note>
      )}
      <Section title={said.said}>
        <Table
          caption={said.saidCaption(rows.length, percent(content.confidence))}
          rows={rows}
          rowKey={({ feature }) => feature.featureId}
          columns={[
            {
              key: "name",
              head: heads.feature,
              width: "18%",
              cell: ({ sheet, words }) => <Link href={hrefOf(sheet)}>{words.name}</Link>,
            },
            { key: "tolerance", head: heads.tolerance, cell: ({ words }) => words.tolerance },
            {
              key: "claim",
              head: heads.said,
              cell: ({ feature, words }) => (
                <span className={own.said}>
                  <StateShape tone={TONES[presentable(feature.study)]} />
                  <span>{words.claim}</span>
                </span>
              ),
            },
            {
              key: "gates",
              head: heads.gates,
              cell: ({ feature }) => <GateMarks gates={feature.study.gates} />,
            },
            { key: "gauge", head: heads.gauge, cell: ({ words }) => words.gauge },
          ]}
        />
      </Section>
      <Section title={said.dimensional} purpose={said.dimensionalPurpose}>
        <Table
          caption={said.dimensionalCaption(rows.length)}
          rows={rows}
          rowKey={({ feature }) => feature.featureId}
          columns={[
            { key: "name", head: heads.feature, cell: ({ words }) => words.name },
            { key: "limits", head: heads.limits, cell: ({ words }) => words.tolerance },
            { key: "n", head: "n", figures: true, cell: ({ words }) => words.listing?.count ?? 0 },
            { key: "min", head: heads.min, figures: true, cell: ({ words }) => words.listing?.min ?? "–" },
            { key: "mean", head: heads.mean, figures: true, cell: ({ words }) => words.listing?.mean ?? "–" },
            { key: "max", head: heads.max, figures: true, cell: ({ words }) => words.listing?.max ?? "–" },
            {
              key: "result",
              head: heads.result,
              cell: ({ words }) => words.listing?.result ?? said.notMeasured,
            },
            { key: "gauge", head: heads.gaugeUsed, cell: ({ words }) => words.listing?.gauges ?? "–" },
          ]}
        />
      </Section>
      <Section title={said.before}>
        <Cautions confidence={percent(content.confidence)} />
      </Section>
    </>
  );
}

/** One feature of a statement with its pictures, drawn from the readings that were signed with it. */
export function StatedFeatureSheet({
  content,
  feature,
  readings,
}: {
  content: StatementContent;
  feature: StatedFeature;
  readings: StatedReadings;
}) {
  const { study } = feature;
  const { zone } = content.plant;
  const language = use(words());
  const { claims, statements } = language;
  const { sheet: said } = statements;
  const stated = statedWords(feature, language);
  const { shape, lots } = statedPictures(feature, readings, content);
  const model = shape?.model ? claims.models[shape.model] : null;
  const latest = feature.limits.at(-1);
  const kind = presentable(study);
  const left = exclusionsInWindow(feature, content.window);
  const judged = {
    places: stated.shown.places,
    tolerance: judgedTolerance("StatedFeatureSheet", feature.plan),
  };
  return (
    <>
      <section className={`${styles.claim} ${styles[kind]}`} aria-labelledby="claim-heading">
        <h2 id="claim-heading" className={styles.claimHead}>
          <StateShape tone={TONES[kind]} />
          {stated.standing}
        </h2>
        <p className={styles.claimWords}>{stated.claim}</p>
        <p className={styles.claimData}>
          <Filled
            text={said.taken}
            holes={{
              data: stated.data,
              from: <When at={feature.firstAt} zone={zone} as="day" />,
              to: <When at={feature.lastAt} zone={zone} as="day" />,
            }}
          />
          {samplePlanWords(feature, language)}
        </p>
      </section>
      {stated.isWhole ? null : <Note kind="remark">{statements.asSignedIn}</Note>}
      <Section title={said.distribution}>
        <p className={styles.caption}>{testWords(study, language)}</p>
        <div className={styles.pictures}>
          {shape !== null && study.mean !== null && study.sdOverall !== null ? (
            <>
              <HistogramPicture
                histogram={shape.histogram}
                count={study.count}
                mean={study.mean}
                sigma={study.sdOverall}
                model={{ words: model, distribution: shape.distribution }}
                feature={stated.shown}
              />
              <ProbabilityPicture
                plot={shape.plot}
                model={model}
                test={testWords(study, language)}
                feature={stated.shown}
              />
            </>
          ) : null}
        </div>
        {lots.length > 0 && study.mean !== null ? (
          <LotPicture
            spans={{
              lots: lots.map((lot, i) => ({ ...lot, lot: i })),
              withoutLot: study.count - inLots(lots),
            }}
            names={new Map(lots.map(({ code }, i) => [i, code]))}
            mean={study.mean}
            feature={stated.shown}
            zone={zone}
          />
        ) : null}
      </Section>
      <Section title={said.indices}>
        {study.problem === null ? <IndexTable study={study} /> : <p>{stated.claim}</p>}
        <OutsideTable study={study} />
      </Section>
      <Section title={said.gates}>
        <Table
          caption={said.gatesCaption}
          rows={stated.gates}
          rowKey={({ gate }) => gate}
          columns={[
            { key: "gate", head: said.gateHeads.gate, cell: ({ name }) => name },
            { key: "outcome", head: said.gateHeads.outcome, cell: ({ word }) => word },
            { key: "reason", head: said.gateHeads.reason, cell: ({ reason }) => reason },
          ]}
        />
      </Section>
      <Section title={said.rests}>
        <Facts>
          <div>
            <dt>{said.mean}</dt>
            <dd>
              <Num value={study.mean} places={stated.shown.places + 1} unit={feature.unit} />
            </dd>
          </div>
          <div>
            <dt>{said.values}</dt>
            <dd>{stated.shown.isReduced ? said.reduced : said.asMeasured}</dd>
          </div>
          <div>
            <dt>{said.limits}</dt>
            <dd>
              {latest === undefined
                ? said.trial
                : said.frozen(latest.version, latest.by ?? statements.program)}
            </dd>
          </div>
          <div>
            <dt>{said.gaugeTakes}</dt>
            <dd>
              {stated.gauge}
              <span className={styles.estimator}>{stated.gaugeBasis ?? ""}</span>
            </dd>
          </div>
        </Facts>
        {left.length > 0 ? (
          <Table
            caption={said.exclusions(feature.excludedReadings)}
            rows={left}
            rowKey={({ from, cause }) => `${from} ${cause}`}
            columns={[
              { key: "cause", head: said.exclusionHeads.cause, cell: ({ cause }) => cause },
              {
                key: "from",
                head: said.exclusionHeads.from,
                cell: ({ from }) => <When at={from} zone={zone} />,
              },
              { key: "to", head: said.exclusionHeads.to, cell: ({ to }) => <When at={to} zone={zone} /> },
              { key: "by", head: said.exclusionHeads.by, cell: ({ by }) => by ?? said.notKnown },
            ]}
          />
        ) : null}
        <HowComputed
          confidence={study.confidence}
          gates={study.gates}
          lines={[
            ...formulaLines(
              {
                study,
                limits:
                  feature.within === null ? problem({ code: "no-variation" }) : computed(feature.within),
              },
              judged,
              language,
            ),
            ...modelLines(study, judged, language),
            ...countedLines(study, { ...judged, target: feature.plan.target }, language),
          ]}
        />
      </Section>
    </>
  );
}

function inLots(lots: readonly { count: number }[]): number {
  return lots.reduce((sum, { count }) => sum + count, 0);
}
