import { markPath } from "../../../../lib/chart/mark-path";
import { linearScale, spanOf } from "../../../../lib/chart/scale";
import { counted, fixed, percent, placesWritten, unitSign } from "../../../../lib/format/numbers";
import {
  type StudyData,
  type StudyResult,
  type StudySettings,
  TYPE_ONE,
} from "../../../../lib/measurement-systems/study-data";
import { Picture } from "../../../capability/[id]/picture";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
import { at, BottomTitle, PLOT, ValueGrid } from "./axes";
import { Formulas, figure } from "./formulas";
import styles from "./study.module.css";

type Result = Extract<StudyResult, { kind: "type-1" }>;
type Data = Extract<StudyData, { kind: "type-1" }>;

/** Readings commonly asked for in a type-1 study. Common practice, no source. */
const USUAL_COUNT = 25;

/** A type-1 study: one known piece, measured often. */
export function TypeOneView({
  result: { study },
  data,
  settings,
  unit,
}: {
  result: Result;
  data: Data;
  settings: StudySettings;
  unit: string;
}) {
  const { share, width } = TYPE_ONE;
  const tolerance = settings.toleranceWidth!;
  const level = percent(settings.confidence);
  const rows = [
    { name: "Cg: room for the scatter", value: fixed(study.Cg, 2) },
    { name: "Cgk: room for scatter and bias", value: fixed(study.Cgk, 2) },
    { name: "mean", value: figure(study.mean) },
    { name: "bias", value: figure(study.bias) },
    {
      name: `bias, ${level} interval`,
      value: `${figure(study.interval[0])} to ${figure(study.interval[1])}`,
    },
    { name: "p of a bias of 0", value: study.p === null ? "not known" : figure(study.p) },
    { name: "standard deviation", value: figure(study.standardDeviation) },
    {
      name: "step of the gauge, of tolerance",
      value: study.percentResolution === null ? "not stated" : percent(study.percentResolution / 100),
    },
  ];
  const source = "common practice, no source";
  return (
    <>
      <Section title="Figures" term="bias">
        <Table
          caption={`${counted(study.count, "reading")}${unitSign(unit) === "" ? "" : `, in ${unitSign(unit)}`}`}
          rows={rows}
          rowKey={({ name }) => name}
          columns={[
            { key: "name", head: "Figure", cell: ({ name }) => name },
            { key: "value", head: "Value", figures: true, cell: ({ value }) => value },
          ]}
        />
      </Section>
      <RunPicture data={data} room={(share * tolerance) / 2} unit={unit} />
      <Formulas
        formulas={[
          {
            figure: "Cg",
            formula: "0.2 (U − L) / (6 s)",
            numbers: `${share} × ${figure(tolerance)} / (${width} × ${figure(study.standardDeviation)}) = ${figure(study.Cg)}`,
            source,
          },
          {
            figure: "Cgk",
            formula: "(0.1 (U − L) − |bias|) / (3 s)",
            numbers: `(${share / 2} × ${figure(tolerance)} − ${figure(Math.abs(study.bias))}) / (${width / 2} × ${figure(study.standardDeviation)}) = ${figure(study.Cgk)}`,
            source,
          },
          {
            figure: "Bias",
            formula: "x̄ − reference, t = bias / (s / √n)",
            numbers: `${figure(study.mean)} − ${figure(data.reference)} = ${figure(study.bias)}${study.t === null ? "" : `, t = ${figure(study.t)} with ${study.count - 1} degrees of freedom`}`,
            source: "NIST/SEMATECH e-Handbook 1.3.5.2",
          },
        ]}
        assumptions={[
          {
            words: `There are as many readings as commonly asked for (${USUAL_COUNT}): ${study.count}.`,
            holds: study.count >= USUAL_COUNT,
          },
          {
            words:
              study.percentResolution === null
                ? "The step of the gauge is at most 5 % of the tolerance: it was not stated."
                : `The step of the gauge is at most 5 % of the tolerance: ${figure(study.percentResolution)} %.`,
            holds: study.percentResolution === null ? null : study.percentResolution <= 5,
          },
          { words: "The size of the piece is known far better than the gauge reads it.", holds: null },
          {
            words: "The readings are independent: the piece was taken out and put in again each time.",
            holds: null,
          },
        ]}
      />
    </>
  );
}

/** The readings in their order, against the known size and a tenth of the tolerance on either side. */
function RunPicture({ data: { reference, values }, room, unit }: { data: Data; room: number; unit: string }) {
  const places = Math.max(...values.map(placesWritten), placesWritten(reference));
  const limits = [reference - room, reference + room];
  const span = spanOf([...values, ...limits], { margin: 0.08 });
  const y = linearScale(span, { start: PLOT.bottom, end: PLOT.top });
  const x = (i: number) => PLOT.left + ((i + 0.5) * (PLOT.right - PLOT.left)) / values.length;
  const sign = unitSign(unit);
  return (
    <Picture
      id="run"
      title="Readings in their order"
      isWide
      description={`${counted(values.length, "reading")} of one piece from left to right.`}
      size={PLOT}
      words={`Each dot is a reading; the full line is the known size ${fixed(reference, places)}, the broken ones lie a tenth of the tolerance off.`}
      table={
        <Table
          caption={counted(values.length, "reading")}
          rows={values.map((value, i) => ({ value, i }))}
          rowKey={({ i }) => i}
          columns={[
            { key: "i", head: "Reading", cell: ({ i }) => i + 1 },
            {
              key: "value",
              head: "Value",
              figures: true,
              cell: ({ value }) => <data value={value}>{fixed(value, places)}</data>,
            },
          ]}
        />
      }
    >
      <ValueGrid span={span} y={y} title={sign === "" ? "reading" : `reading in ${sign}`} />
      <line
        className={styles.zero}
        x1={PLOT.left}
        x2={PLOT.right}
        y1={at(y(reference))}
        y2={at(y(reference))}
      />
      {limits.map((limit) => (
        <line
          key={limit}
          className={styles.limit}
          x1={PLOT.left}
          x2={PLOT.right}
          y1={at(y(limit))}
          y2={at(y(limit))}
        />
      ))}
      <path
        className={styles.marks0}
        d={values.map((value, i) => markPath("disc", x(i), y(value), 3.5)).join("")}
      />
      <BottomTitle title="order of the readings" />
    </Picture>
  );
}
