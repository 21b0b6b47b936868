import { pWords } from "../../../../lib/capability/words";
import { percent, placesWritten, unitSign } from "../../../../lib/format/numbers";
import type { StudyReading } from "../../../../lib/measurement-systems/arrange";
import type { CrossedLine, CrossedTerm } from "../../../../lib/measurement-systems/crossed-anova";
import { STUDY_COMPONENTS, type StudyComponent } from "../../../../lib/measurement-systems/crossed-study";
import type { StudyResult, StudySettings } from "../../../../lib/measurement-systems/study-data";
import { Num } from "../../../fittings/num";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
import { crossedAssumptions, crossedFormulas } from "./crossed-formulas";
import { CrossedPicture } from "./crossed-picture";
import { Formulas, figure } from "./formulas";
import styles from "./study.module.css";

type Result = Extract<StudyResult, { kind: "crossed" }>;

const TERM_WORDS: Record<CrossedTerm | "total", string> = {
  part: "part",
  operator: "operator",
  interaction: "part by operator",
  repeatability: "repeatability",
  total: "total",
};

const COMPONENT_WORDS: Record<StudyComponent, string> = {
  repeatability: "repeatability",
  operator: "operator",
  interaction: "part by operator",
  reproducibility: "reproducibility (both)",
  grr: "gauge: repeatability and reproducibility",
  part: "part to part",
  total: "all that was seen",
};

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
  const places = Math.max(...readings.map(({ value }) => placesWritten(value)));
  return (
    <>
      <Section
        title="Components"
        term="gauge-study"
        purpose="Standard deviations; a component that the mean squares put below 0 is shown as 0."
      >
        <Components result={result} settings={settings} unit={unit} />
      </Section>
      <CrossedPicture readings={readings} unit={unit} places={places} />
      <Section title="Analysis of variance">
        <Anova study={study} />
        <p className={styles.soft}>
          {study.pooled
            ? `The interaction (${pWords(study.interactionP!)}) tells nothing from chance and was joined with repeatability.`
            : study.interactionP === null
              ? "Trials repeat exactly, so the interaction cannot be tested."
              : `The interaction (${pWords(study.interactionP)}) was kept.`}
        </p>
      </Section>
      <Section
        title="By average and range"
        purpose="The method with pencil and paper, for studies that are compared with older ones; it does not see the interaction."
      >
        <ByRange result={result} unit={unit} />
      </Section>
      <Formulas
        formulas={crossedFormulas(result, readings, settings)}
        assumptions={crossedAssumptions(result, readings, settings)}
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
  const intervals: Partial<Record<StudyComponent, readonly [number, number]>> = {
    repeatability: study.repeatabilityInterval.interval,
    grr: study.grrInterval.modifiedLargeSample.interval,
  };
  const share = (shares: Record<StudyComponent, number> | null, name: StudyComponent) =>
    shares === null ? <Num value={null} absent="not known" /> : percent(shares[name] / 100);
  const sign = unitSign(unit);
  return (
    <Table
      caption={`${percent(settings.confidence)} intervals by modified large samples${sign === "" ? "" : `; standard deviations in ${sign}`}`}
      rows={[...STUDY_COMPONENTS]}
      rowKey={(name) => name}
      columns={[
        { key: "name", head: "From", cell: (name) => COMPONENT_WORDS[name] },
        {
          key: "sd",
          head: "Standard deviation",
          figures: true,
          cell: (name) => <data value={study.deviations[name]}>{figure(study.deviations[name])}</data>,
        },
        {
          key: "interval",
          head: "Interval",
          figures: true,
          cell: (name) => {
            const interval = intervals[name];
            if (!interval) return "";
            return `${figure(Math.sqrt(Math.max(0, interval[0])))} to ${figure(Math.sqrt(interval[1]))}`;
          },
        },
        {
          key: "variance",
          head: "Of variance",
          figures: true,
          cell: (name) => share(study.contribution, name),
        },
        { key: "study", head: "Of study", figures: true, cell: (name) => share(study.percentStudy, name) },
        {
          key: "tolerance",
          head: "Of tolerance",
          figures: true,
          cell: (name) => share(study.percentTolerance, name),
        },
      ]}
    />
  );
}

function Anova({ study: { anova } }: { study: Result["study"] }) {
  type Row = Pick<CrossedLine, "sumOfSquares" | "degreesOfFreedom"> & {
    term: CrossedTerm | "total";
    meanSquare: number | null;
    F: number | null;
    p: number | null;
  };
  const rows: Row[] = [...anova.lines, { ...anova.total, term: "total", meanSquare: null, F: null, p: null }];
  return (
    <Table
      caption="Two-way, parts and operators taken as random"
      rows={rows}
      rowKey={({ term }) => term}
      columns={[
        { key: "term", head: "Source", cell: ({ term }) => TERM_WORDS[term] },
        { key: "df", head: "Degrees of freedom", figures: true, cell: (row) => row.degreesOfFreedom },
        {
          key: "ss",
          head: "Sum of squares",
          figures: true,
          cell: (row) => <data value={row.sumOfSquares}>{figure(row.sumOfSquares)}</data>,
        },
        {
          key: "ms",
          head: "Mean square",
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
          cell: ({ p }) => (p === null ? "" : pWords(p).replace(/^p /, "")),
        },
      ]}
    />
  );
}

function ByRange({ result: { study, byRange }, unit }: { result: Result; unit: string }) {
  const whole = (value: number | null) => (value === null ? "not known" : String(value));
  const per = (value: number | null | undefined) => (value == null ? "not known" : percent(value / 100));
  const sign = unitSign(unit);
  const rows = [
    {
      name: "repeatability (EV)",
      range: figure(byRange.equipmentVariation),
      anova: figure(study.deviations.repeatability),
    },
    {
      name: "operators (AV)",
      range: figure(byRange.appraiserVariation),
      anova: figure(study.deviations.reproducibility),
    },
    { name: "gauge (GRR)", range: figure(byRange.grr), anova: figure(study.deviations.grr) },
    { name: "part to part (PV)", range: figure(byRange.partVariation), anova: figure(study.deviations.part) },
    { name: "of study", range: per(byRange.percentStudy), anova: per(study.percentStudy?.grr) },
    { name: "of tolerance", range: per(byRange.percentTolerance), anova: per(study.percentTolerance?.grr) },
    { name: "classes told apart (ndc)", range: whole(byRange.ndc), anova: whole(study.ndc) },
  ];
  return (
    <Table
      caption={`Both methods side by side${sign === "" ? "" : `; standard deviations in ${sign}`}`}
      rows={rows}
      rowKey={({ name }) => name}
      columns={[
        { key: "name", head: "Figure", cell: ({ name }) => name },
        { key: "range", head: "Average and range", figures: true, cell: ({ range }) => range },
        { key: "anova", head: "Analysis of variance", figures: true, cell: ({ anova }) => anova },
      ]}
    />
  );
}
