import { use } from "react";
import { markPath } from "../../../../lib/chart/mark-path";
import { linearScale, spanOf } from "../../../../lib/chart/scale";
import { fixed, percent, placesWritten, unitName } from "../../../../lib/format/numbers";
import {
  type StudyData,
  type StudyResult,
  type StudySettings,
  TYPE_ONE,
} from "../../../../lib/measurement-systems/study-data";
import { Picture } from "../../../capability/[id]/picture";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
import { words } from "../../../language/language";
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
  const { typeOne: said, formulas } = use(words()).gaugeStudies;
  const rows = [
    { name: said.rows.Cg, value: fixed(study.Cg, 2) },
    { name: said.rows.Cgk, value: fixed(study.Cgk, 2) },
    { name: said.rows.mean, value: figure(study.mean) },
    { name: said.rows.bias, value: figure(study.bias) },
    {
      name: said.rows.interval(level),
      value: formulas.fromTo(figure(study.interval[0]), figure(study.interval[1])),
    },
    { name: said.rows.p, value: study.p === null ? formulas.notKnown : figure(study.p) },
    { name: said.rows.sd, value: figure(study.standardDeviation) },
    {
      name: said.rows.step,
      value: study.percentResolution === null ? said.notStated : percent(study.percentResolution / 100),
    },
  ];
  const source = formulas.common;
  return (
    <>
      <Section title={said.figures} term="bias">
        <Table
          caption={said.caption(study.count, unitName(unit, use(words()).figures))}
          rows={rows}
          rowKey={({ name }) => name}
          columns={[
            { key: "name", head: said.heads.name, cell: ({ name }) => name },
            { key: "value", head: said.heads.value, figures: true, cell: ({ value }) => value },
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
            figure: said.bias,
            formula: said.biasFormula,
            numbers: said.biasIs(
              `${figure(study.mean)} − ${figure(data.reference)} = ${figure(study.bias)}`,
              study.t === null ? null : figure(study.t),
              study.count - 1,
            ),
            source: "NIST/SEMATECH e-Handbook 1.3.5.2",
          },
        ]}
        assumptions={[
          {
            words: said.presumes.count(USUAL_COUNT, study.count),
            holds: study.count >= USUAL_COUNT,
          },
          {
            words: said.presumes.step(
              study.percentResolution === null ? null : figure(study.percentResolution),
            ),
            holds: study.percentResolution === null ? null : study.percentResolution <= 5,
          },
          { words: said.presumes.known, holds: null },
          {
            words: said.presumes.independent,
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
  const sign = unitName(unit, use(words()).figures);
  const { typeOne: all } = use(words()).gaugeStudies;
  const { picture: said } = all;
  return (
    <Picture
      id="run"
      title={said.title}
      isWide
      description={said.description(values.length)}
      size={PLOT}
      words={said.words(fixed(reference, places))}
      table={
        <Table
          caption={all.caption(values.length, "")}
          rows={values.map((value, i) => ({ value, i }))}
          rowKey={({ i }) => i}
          columns={[
            { key: "i", head: all.heads.reading, cell: ({ i }) => i + 1 },
            {
              key: "value",
              head: all.heads.value,
              figures: true,
              cell: ({ value }) => <data value={value}>{fixed(value, places)}</data>,
            },
          ]}
        />
      }
    >
      <ValueGrid span={span} y={y} title={said.across(sign)} />
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
      <BottomTitle title={said.along} />
    </Picture>
  );
}
