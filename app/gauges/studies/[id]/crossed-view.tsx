import { use } from "react";
import { pWords } from "../../../../lib/capability/words";
import { percent, placesWritten, unitName } from "../../../../lib/format/numbers";
import type { StudyReading } from "../../../../lib/measurement-systems/arrange";
import type { CrossedLine, CrossedTerm } from "../../../../lib/measurement-systems/crossed-anova";
import { STUDY_COMPONENTS, type StudyComponent } from "../../../../lib/measurement-systems/crossed-study";
import type { StudyResult, StudySettings } from "../../../../lib/measurement-systems/study-data";
import { Num } from "../../../fittings/num";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
import { words } from "../../../language/language";
import { crossedAssumptions, crossedFormulas } from "./crossed-formulas";
import { CrossedPicture } from "./crossed-picture";
import { Formulas, figure } from "./formulas";
import styles from "./study.module.css";

type Result = Extract<StudyResult, { kind: "crossed" }>;

/** A crossed study: where the variation comes from, what of it is the gauge, and the same by ranges. */
export function CrossedView({
  result,
  readings,
  settings,
  unit,
}: {
  result: Result;
  readings: readonly StudyReading[];
  settings: StudySettings;
  unit: string;
}) {
  const { study } = result;
  const { gaugeStudies, figures } = use(words());
  const { crossed: said } = gaugeStudies;
  const places = Math.max(...readings.map(({ value }) => placesWritten(value)));
  return (
    <>
      <Section title={said.components} term="gauge-study" purpose={said.componentsPurpose}>
        <Components result={result} settings={settings} unit={unit} />
      </Section>
      <CrossedPicture readings={readings} unit={unit} places={places} />
      <Section title={said.anova}>
        <Anova study={study} />
        <p className={styles.soft}>
          {study.pooled
            ? said.pooled(pWords(study.interactionP!, figures))
            : study.interactionP === null
              ? said.exact
              : said.kept(pWords(study.interactionP, figures))}
        </p>
      </Section>
      <Section title={said.byRange} purpose={said.byRangePurpose}>
        <ByRange result={result} unit={unit} />
      </Section>
      <Formulas
        formulas={crossedFormulas(result, readings, { ...settings, said })}
        assumptions={crossedAssumptions(result, readings, { ...settings, said: said.presumes })}
      />
    </>
  );
}

function Components({
  result: { study },
  settings,
  unit,
}: {
  result: Result;
  settings: StudySettings;
  unit: string;
}) {
  const { crossed: said, formulas } = use(words()).gaugeStudies;
  const { heads } = said;
  const intervals: Partial<Record<StudyComponent, readonly [number, number]>> = {
    repeatability: study.repeatabilityInterval.interval,
    grr: study.grrInterval.modifiedLargeSample.interval,
  };
  const share = (shares: Record<StudyComponent, number> | null, name: StudyComponent) =>
    shares === null ? <Num value={null} absent={formulas.notKnown} /> : percent(shares[name] / 100);
  const sign = unitName(unit, use(words()).figures);
  return (
    <Table
      caption={said.caption(percent(settings.confidence), sign)}
      rows={[...STUDY_COMPONENTS]}
      rowKey={(name) => name}
      columns={[
        { key: "name", head: heads.from, cell: (name) => said.names[name] },
        {
          key: "sd",
          head: heads.sd,
          figures: true,
          cell: (name) => <data value={study.deviations[name]}>{figure(study.deviations[name])}</data>,
        },
        {
          key: "interval",
          head: heads.interval,
          figures: true,
          cell: (name) => {
            const interval = intervals[name];
            if (!interval) return "";
            return formulas.fromTo(
              figure(Math.sqrt(Math.max(0, interval[0]))),
              figure(Math.sqrt(interval[1])),
            );
          },
        },
        {
          key: "variance",
          head: heads.variance,
          figures: true,
          cell: (name) => share(study.contribution, name),
        },
        { key: "study", head: heads.study, figures: true, cell: (name) => share(study.percentStudy, name) },
        {
          key: "tolerance",
          head: heads.tolerance,
          figures: true,
          cell: (name) => share(study.percentTolerance, name),
        },
      ]}
    />
  );
}

function Anova({ study: { anova } }: { study: Result["study"] }) {
  const { gaugeStudies, figures } = use(words());
  const { crossed: said } = gaugeStudies;
  const { anovaHeads: heads } = said;
  type Row = Pick<CrossedLine, "sumOfSquares" | "degreesOfFreedom"> & {
    term: CrossedTerm | "total";
    meanSquare: number | null;
    F: number | null;
    p: number | null;
  };
  const rows: Row[] = [...anova.lines, { ...anova.total, term: "total", meanSquare: null, F: null, p: null }];
  return (
    <Table
      caption={said.anovaCaption}
      rows={rows}
      rowKey={({ term }) => term}
      columns={[
        { key: "term", head: heads.term, cell: ({ term }) => said.terms[term] },
        { key: "df", head: heads.df, figures: true, cell: (row) => row.degreesOfFreedom },
        {
          key: "ss",
          head: heads.ss,
          figures: true,
          cell: (row) => <data value={row.sumOfSquares}>{figure(row.sumOfSquares)}</data>,
        },
        {
          key: "ms",
          head: heads.ms,
          figures: true,
          cell: (row) =>
            row.meanSquare === null ? "" : <data value={row.meanSquare}>{figure(row.meanSquare)}</data>,
        },
        {
          key: "f",
          head: "F",
          figures: true,
          cell: ({ F }) => (F === null ? "" : <data value={F}>{figure(F)}</data>),
        },
        {
          key: "p",
          head: "p",
          figures: true,
          cell: ({ p }) => (p === null ? "" : pWords(p, figures).replace(/^p /, "")),
        },
      ]}
    />
  );
}

function ByRange({ result: { study, byRange }, unit }: { result: Result; unit: string }) {
  const { crossed: said, formulas } = use(words()).gaugeStudies;
  const { methods, methodHeads: heads } = said;
  const whole = (value: number | null) => (value === null ? formulas.notKnown : String(value));
  const per = (value: number | null | undefined) =>
    value == null ? formulas.notKnown : percent(value / 100);
  const sign = unitName(unit, use(words()).figures);
  const rows = [
    {
      name: methods.ev,
      range: figure(byRange.equipmentVariation),
      anova: figure(study.deviations.repeatability),
    },
    {
      name: methods.av,
      range: figure(byRange.appraiserVariation),
      anova: figure(study.deviations.reproducibility),
    },
    { name: methods.grr, range: figure(byRange.grr), anova: figure(study.deviations.grr) },
    { name: methods.pv, range: figure(byRange.partVariation), anova: figure(study.deviations.part) },
    { name: methods.study, range: per(byRange.percentStudy), anova: per(study.percentStudy?.grr) },
    {
      name: methods.tolerance,
      range: per(byRange.percentTolerance),
      anova: per(study.percentTolerance?.grr),
    },
    { name: methods.ndc, range: whole(byRange.ndc), anova: whole(study.ndc) },
  ];
  return (
    <Table
      caption={said.methodsCaption(sign)}
      rows={rows}
      rowKey={({ name }) => name}
      columns={[
        { key: "name", head: heads.name, cell: ({ name }) => name },
        { key: "range", head: heads.range, figures: true, cell: ({ range }) => range },
        { key: "anova", head: heads.anova, figures: true, cell: ({ anova }) => anova },
      ]}
    />
  );
}
