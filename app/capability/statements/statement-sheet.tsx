import { use } from "react";
import { presentable } from "../../../lib/capability/gate-outcome";
import { testWords } from "../../../lib/capability/test-words";
import { judgedTolerance } from "../../../lib/capability/tolerance";
import { percent } from "../../../lib/capability/words";
import { computed, problem } from "../../../lib/computed";
import { counted } from "../../../lib/format/numbers";
import type { StatedFeature, StatedReadings, StatementContent } from "../../../lib/statement/content";
import { statedPictures } from "../../../lib/statement/figures";
import { exclusionsInWindow, samplePlanWords, statedWords } from "../../../lib/statement/words";
import { Facts } from "../../fittings/facts";
import { Link } from "../../fittings/link";
import { Num } from "../../fittings/num";
import { Section } from "../../fittings/page-frame";
import { StateShape } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words as language } from "../../language/language";
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
  const rows = content.features.map((feature, i) => ({ sheet: i + 1, feature, words: statedWords(feature) }));
  return (
    <>
      <Section title="What can be said">
        <Table
          caption={`${counted(rows.length, "feature")}, as signed; bounds with ${percent(content.confidence)} confidence`}
          rows={rows}
          rowKey={({ feature }) => feature.featureId}
          columns={[
            {
              key: "name",
              head: "Feature",
              width: "18%",
              cell: ({ sheet, words }) => <Link href={hrefOf(sheet)}>{words.name}</Link>,
            },
            { key: "tolerance", head: "Tolerance", cell: ({ words }) => words.tolerance },
            {
              key: "claim",
              head: "What can be said",
              cell: ({ feature, words }) => (
                <span className={own.said}>
                  <StateShape tone={TONES[presentable(feature.study)]} />
                  <span>{words.claim}</span>
                </span>
              ),
            },
            { key: "gates", head: "Gates", cell: ({ feature }) => <GateMarks gates={feature.study.gates} /> },
            { key: "gauge", head: "Gauge takes", cell: ({ words }) => words.gauge },
          ]}
        />
      </Section>
      <Section title="Dimensional results" purpose="For a first-article or sample submission.">
        <Table
          caption={`What was measured of ${counted(rows.length, "feature")}`}
          rows={rows}
          rowKey={({ feature }) => feature.featureId}
          columns={[
            { key: "name", head: "Feature", cell: ({ words }) => words.name },
            { key: "limits", head: "Limits", cell: ({ words }) => words.tolerance },
            { key: "n", head: "n", figures: true, cell: ({ words }) => words.listing?.count ?? 0 },
            { key: "min", head: "Least", figures: true, cell: ({ words }) => words.listing?.min ?? "–" },
            { key: "mean", head: "Mean", figures: true, cell: ({ words }) => words.listing?.mean ?? "–" },
            { key: "max", head: "Largest", figures: true, cell: ({ words }) => words.listing?.max ?? "–" },
            { key: "result", head: "Result", cell: ({ words }) => words.listing?.result ?? "not measured" },
            { key: "gauge", head: "Gauge used", cell: ({ words }) => words.listing?.gauges ?? "–" },
          ]}
        />
      </Section>
      <Section title="Before it is used">
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
  const words = statedWords(feature);
  const { shape, lots } = statedPictures(feature, readings, content);
  const { claims } = use(language());
  const model = shape?.model ? claims.models[shape.model] : null;
  const kind = presentable(study);
  const left = exclusionsInWindow(feature, content.window);
  const judged = {
    places: words.shown.places,
    tolerance: judgedTolerance("StatedFeatureSheet", feature.plan),
  };
  return (
    <>
      <section className={`${styles.claim} ${styles[kind]}`} aria-labelledby="claim-heading">
        <h2 id="claim-heading" className={styles.claimHead}>
          <StateShape tone={TONES[kind]} />
          {words.standing}
        </h2>
        <p className={styles.claimWords}>{words.claim}</p>
        <p className={styles.claimData}>
          {words.data}, <When at={feature.firstAt} zone={zone} as="day" /> to{" "}
          <When at={feature.lastAt} zone={zone} as="day" />. {samplePlanWords(feature)}
        </p>
      </section>
      <Section title="Distribution">
        <p className={styles.caption}>{testWords(study)}</p>
        <div className={styles.pictures}>
          {shape !== null && study.mean !== null && study.sdOverall !== null ? (
            <>
              <HistogramPicture
                histogram={shape.histogram}
                count={study.count}
                mean={study.mean}
                sigma={study.sdOverall}
                model={{ words: model, distribution: shape.distribution }}
                feature={words.shown}
              />
              <ProbabilityPicture
                plot={shape.plot}
                model={model}
                test={testWords(study)}
                feature={words.shown}
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
            feature={words.shown}
            zone={zone}
          />
        ) : null}
      </Section>
      <Section title="Indices">
        {study.problem === null ? <IndexTable study={study} /> : <p>{words.claim}</p>}
        <OutsideTable study={study} />
      </Section>
      <Section title="Gates">
        <Table
          caption="What must hold before the word capability is used"
          rows={words.gates}
          rowKey={({ gate }) => gate}
          columns={[
            { key: "gate", head: "Gate", cell: ({ gate }) => gate },
            { key: "outcome", head: "Outcome", cell: ({ word }) => word },
            { key: "reason", head: "Reason", cell: ({ reason }) => reason },
          ]}
        />
      </Section>
      <Section title="What it rests on">
        <Facts>
          <div>
            <dt>Mean</dt>
            <dd>
              <Num value={study.mean} places={words.shown.places + 1} unit={feature.unit} />
            </dd>
          </div>
          <div>
            <dt>Values</dt>
            <dd>{words.shown.isReduced ? "reduced to 20 °C" : "as measured"}</dd>
          </div>
          <div>
            <dt>Control limits</dt>
            <dd>
              {feature.limits.length === 0
                ? "trial limits"
                : `version ${feature.limits.at(-1)?.version}, frozen by ${feature.limits.at(-1)?.by ?? "the program"}`}
            </dd>
          </div>
          <div>
            <dt>Gauge takes of the tolerance</dt>
            <dd>
              {words.gauge}
              <span className={styles.estimator}>{feature.gaugeBasis ?? ""}</span>
            </dd>
          </div>
        </Facts>
        {left.length > 0 ? (
          <Table
            caption={`${counted(feature.excludedReadings, "reading")} left out with an assigned cause`}
            rows={left}
            rowKey={({ from, cause }) => `${from} ${cause}`}
            columns={[
              { key: "cause", head: "Cause", cell: ({ cause }) => cause },
              { key: "from", head: "From", cell: ({ from }) => <When at={from} zone={zone} /> },
              { key: "to", head: "To", cell: ({ to }) => <When at={to} zone={zone} /> },
              { key: "by", head: "Left out by", cell: ({ by }) => by ?? "not known" },
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
            ),
            ...modelLines(study, judged),
            ...countedLines(study, { ...judged, target: feature.plan.target }),
          ]}
        />
      </Section>
    </>
  );
}

function inLots(lots: readonly { count: number }[]): number {
  return lots.reduce((sum, { count }) => sum + count, 0);
}
