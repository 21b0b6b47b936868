import { use } from "react";
import { markPath } from "../../../../lib/chart/mark-path";
import { linearScale, niceTicks, spanOf } from "../../../../lib/chart/scale";
import { fixed, percent, unitName } from "../../../../lib/format/numbers";
import {
  type KnownReading,
  knownPieces,
  type StudyResult,
  type StudySettings,
} from "../../../../lib/measurement-systems/study-data";
import type { Words } from "../../../../lib/words/words";
import { Picture } from "../../../capability/[id]/picture";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
import { words } from "../../../language/language";
import { at, BottomTitle, PLOT, ValueGrid } from "./axes";
import { type Formula, Formulas, figure } from "./formulas";
import styles from "./study.module.css";

type Result = Extract<StudyResult, { kind: "bias-linearity" }>;

/** Bias at each size, and whether it changes with size. */
export function LinearityView({
  result,
  readings,
  settings,
  unit,
}: {
  result: Result;
  readings: readonly KnownReading[];
  settings: StudySettings;
  unit: string;
}) {
  const { linearity, pieces } = result;
  const { linearity: said, formulas } = use(words()).gaugeStudies;
  const { heads } = said;
  const level = percent(settings.confidence);
  const sign = unitName(unit, use(words()).figures);
  const fittedAt = (reference: number) =>
    linearity?.fitted.find((one) => one.reference === reference) ?? null;
  return (
    <>
      <Section title={said.title} term="bias">
        <Table
          caption={said.caption(pieces.length, sign, level)}
          rows={pieces}
          rowKey={({ reference }) => reference}
          columns={[
            {
              key: "reference",
              head: heads.reference,
              figures: true,
              names: true,
              cell: ({ reference }) => reference,
            },
            { key: "count", head: heads.count, figures: true, cell: ({ bias }) => bias?.count ?? 1 },
            {
              key: "bias",
              head: heads.bias,
              figures: true,
              cell: ({ bias }) => (bias ? <data value={bias.bias}>{figure(bias.bias)}</data> : ""),
            },
            {
              key: "interval",
              head: heads.interval,
              figures: true,
              cell: ({ bias }) =>
                bias ? formulas.fromTo(figure(bias.interval[0]), figure(bias.interval[1])) : "",
            },
            {
              key: "p",
              head: "p",
              figures: true,
              cell: ({ bias }) => (bias?.p == null ? "" : <data value={bias.p}>{figure(bias.p)}</data>),
            },
            {
              key: "line",
              head: heads.line,
              figures: true,
              cell: ({ reference }) => {
                const fitted = fittedAt(reference);
                return fitted ? figure(fitted.bias) : "";
              },
            },
          ]}
        />
      </Section>
      {linearity === null ? null : (
        <>
          <Section title={said.line}>
            <Table
              caption={said.lineCaption}
              rows={[
                { name: said.slope, ...linearity.line.slope },
                { name: said.atZero, ...linearity.line.intercept },
              ]}
              rowKey={({ name }) => name}
              columns={[
                { key: "name", head: heads.figure, cell: ({ name }) => name },
                {
                  key: "estimate",
                  head: heads.estimate,
                  figures: true,
                  cell: (row) => <data value={row.estimate}>{figure(row.estimate)}</data>,
                },
                {
                  key: "se",
                  head: heads.error,
                  figures: true,
                  cell: (row) => <data value={row.standardError}>{figure(row.standardError)}</data>,
                },
                {
                  key: "p",
                  head: "p",
                  figures: true,
                  cell: ({ p }) => (p === null ? "" : <data value={p}>{figure(p)}</data>),
                },
              ]}
            />
          </Section>
          <LinearityPicture linearity={linearity} readings={readings} unit={unit} level={level} />
        </>
      )}
      <Formulas formulas={formulasOf(result, said)} assumptions={assumptionsOf(result, said)} />
    </>
  );
}

function LinearityPicture({
  linearity,
  readings,
  unit,
  level,
}: {
  linearity: NonNullable<Result["linearity"]>;
  readings: readonly KnownReading[];
  unit: string;
  level: string;
}) {
  const { fitted } = linearity;
  const deviations = readings.map(({ reference, value }) => ({ reference, deviation: value - reference }));
  const span = spanOf(
    [
      0,
      ...deviations.map(({ deviation }) => deviation),
      ...fitted.flatMap(({ lower, upper }) => [lower, upper]),
    ],
    { margin: 0.08 },
  );
  const sizes = spanOf(
    readings.map(({ reference }) => reference),
    { margin: 0.06 },
  );
  const y = linearScale(span, { start: PLOT.bottom, end: PLOT.top });
  const x = linearScale(sizes, { start: PLOT.left, end: PLOT.right });
  const ticks = niceTicks(sizes, 8);
  const means = knownPieces(readings);
  const sign = unitName(unit, use(words()).figures);
  const { linearity: all } = use(words()).gaugeStudies;
  const { picture: said, heads } = all;
  const path = (points: readonly (readonly [number, number])[]) =>
    points.map(([px, py], i) => `${i === 0 ? "M" : "L"}${at(px)} ${at(py)}`).join("");
  return (
    <Picture
      id="linearity"
      title={said.title}
      isWide
      description={said.description(readings.length, means.length)}
      size={PLOT}
      words={said.words(level, linearity.isFree)}
      table={
        <Table
          caption={said.caption}
          rows={fitted}
          rowKey={({ reference }) => reference}
          columns={[
            {
              key: "reference",
              head: heads.reference,
              figures: true,
              names: true,
              cell: ({ reference }) => reference,
            },
            {
              key: "bias",
              head: heads.line,
              figures: true,
              cell: ({ bias }) => <data value={bias}>{figure(bias)}</data>,
            },
            {
              key: "lower",
              head: heads.lower,
              figures: true,
              cell: ({ lower }) => <data value={lower}>{figure(lower)}</data>,
            },
            {
              key: "upper",
              head: heads.upper,
              figures: true,
              cell: ({ upper }) => <data value={upper}>{figure(upper)}</data>,
            },
          ]}
        />
      }
    >
      <path
        className={styles.band}
        d={`${path([
          ...fitted.map(({ reference, upper }) => [x(reference), y(upper)] as const),
          ...[...fitted].reverse().map(({ reference, lower }) => [x(reference), y(lower)] as const),
        ])}Z`}
      />
      <ValueGrid span={span} y={y} title={said.across(sign)} />
      <path
        className={styles.line}
        d={path(fitted.map(({ reference, bias }) => [x(reference), y(bias)] as const))}
      />
      <path
        className={styles.marks5}
        d={deviations
          .map(({ reference, deviation }) => markPath("disc", x(reference), y(deviation), 2.6))
          .join("")}
      />
      <path
        className={styles.marks1}
        d={means
          .map(({ reference, deviations: own }) =>
            markPath("square", x(reference), y(own.reduce((sum, one) => sum + one, 0) / own.length), 5),
          )
          .join("")}
      />
      {ticks.values.map((value) => (
        <text key={value} className={styles.tick} x={at(x(value))} y={PLOT.bottom + 19} textAnchor="middle">
          {fixed(value, ticks.places)}
        </text>
      ))}
      <BottomTitle title={said.along(sign)} />
    </Picture>
  );
}

type LinearityWords = Words["gaugeStudies"]["linearity"];

function formulasOf({ linearity, pieces }: Result, said: LinearityWords): Formula[] {
  const first = pieces.find(({ bias }) => bias !== null);
  const bias = first?.bias;
  return [
    ...(bias
      ? [
          {
            figure: said.figures.bias(first.reference),
            formula: said.biasFormula,
            numbers: `${figure(bias.bias)}${bias.t === null ? "" : `, t = ${figure(bias.bias)} / (${figure(bias.standardDeviation)} / √${bias.count}) = ${figure(bias.t)}`}`,
            source: "NIST/SEMATECH e-Handbook 1.3.5.2",
          },
        ]
      : []),
    ...(linearity
      ? [
          {
            figure: said.figures.line,
            formula: said.lineFormula,
            numbers: said.lineIs(
              figure(linearity.line.intercept.estimate),
              figure(linearity.line.slope.estimate),
              figure(linearity.line.residualStandardDeviation),
            ),
            source: said.lineSource,
          },
          {
            figure: said.figures.band,
            formula: "a + b·x ± t·s·√(1/n + (x − x̄)²/Sₓₓ)",
            numbers: said.bandIs(linearity.line.degreesOfFreedom),
            source: said.sameSource,
          },
        ]
      : []),
  ];
}

function assumptionsOf({ pieces }: Result, { presumes: said }: LinearityWords) {
  return [
    {
      words: said.sizes(pieces.length),
      holds: pieces.length >= 5,
    },
    { words: said.known, holds: null },
    { words: said.alike, holds: null },
  ];
}
