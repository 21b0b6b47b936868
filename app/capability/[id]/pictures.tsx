import type { ReactNode } from "react";
import { namesOf } from "../../../db/queries/history";
import { type Histogram, histogram } from "../../../lib/capability/histogram";
import { lotSpans } from "../../../lib/capability/lot-spans";
import { probabilityPlot } from "../../../lib/capability/probability-plot";
import { studyDistribution } from "../../../lib/capability/study-distribution";
import { testWords } from "../../../lib/capability/test-words";
import { type Computed, computed, problem } from "../../../lib/computed";
import { shownFeature } from "../../../lib/format/shown-feature";
import { shownHistogram } from "../../../lib/units/shown-study";
import { database } from "../../database";
import { Note } from "../../fittings/note";
import { Section } from "../../fittings/page-frame";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { ProblemNote } from "../../problem";
import { CONFIDENCE, type Studied } from "../studied";
import styles from "./detail.module.css";
import { HistogramPicture } from "./histogram-picture";
import { LotPicture } from "./lot-picture";
import { ProbabilityPicture } from "./probability-picture";

/** Fewer readings than the test of normality takes have no shape to be drawn. */
const FEWEST_DRAWN = 5;

/** Histogram, probability plot and lots, or the everyday reason why there is nothing to see in one. */
export async function Pictures({
  own,
  found: { history, result },
  zone,
  choice,
  children,
}: {
  /** As computed, in the feature's own unit, where readings lie on the grid that bins are made of. */
  own: Studied;
  /** As shown. */
  found: Studied;
  zone: string;
  /** The choice of a model, above what it changes, and what there is to say of the chosen one. */
  choice: ReactNode;
  children: ReactNode;
}) {
  const language = await words();
  const { capability, claims } = language;
  const { pictures: said } = capability;
  const { feature, series } = history;
  const { study, values, positions } = result;
  const shown = shownFeature(feature, study.sdOverall);
  const needed = { code: "too-few-readings", needed: FEWEST_DRAWN, got: study.count } as const;
  const bins = study.count < FEWEST_DRAWN ? problem<Histogram>(needed) : await binsOf(own);
  const distribution = studyDistribution(study, feature.plan);
  const model = study.modelStudy && claims.models[study.modelStudy.fit.model];
  const plot = probabilityPlot({
    values,
    confidence: CONFIDENCE,
    model: model === null ? undefined : (distribution ?? undefined),
  });
  const spans = lotSpans({ series, positions, values });
  const names = await namesOf(
    await database(),
    "lot",
    spans.lots.map(({ lot }) => lot),
  );
  return (
    <Section title={said.title} term="normality">
      {choice}
      {children}
      <div className={styles.pictures}>
        {bins.ok && study.mean !== null && study.sdOverall !== null && distribution !== null ? (
          <HistogramPicture
            histogram={bins.value}
            count={study.count}
            mean={study.mean}
            sigma={study.sdOverall}
            model={{ words: model, distribution }}
            feature={shown}
          />
        ) : null}
        {bins.ok && plot.ok ? (
          <ProbabilityPicture
            plot={plot.value}
            model={model}
            test={testWords(study, language)}
            feature={shown}
          />
        ) : null}
      </div>
      {bins.ok ? null : <ProblemNote problem={bins.problem} figure="picture" />}
      {spans.lots.length > 0 && study.mean !== null ? (
        <LotPicture spans={spans} names={names} mean={study.mean} feature={shown} zone={zone} />
      ) : (
        <Note kind="not-yet">{said.noLots(spans.withoutLot)}</Note>
      )}
    </Section>
  );
}

async function binsOf({ history: { feature }, result }: Studied): Promise<Computed<Histogram>> {
  const { lengths } = await plant();
  const { resolution, unit, plan } = feature;
  const made = histogram({ values: result.values, resolution, tolerance: plan.tolerance });
  return made.ok ? computed(shownHistogram(made.value, unit, lengths)) : made;
}
