import { markPath } from "../../../../lib/chart/mark-path";
import { linearScale, niceTicks, spanOf } from "../../../../lib/chart/scale";
import { counted, fixed, percent, unitSign } from "../../../../lib/format/numbers";
import {
  type KnownReading,
  knownPieces,
  type StudyResult,
  type StudySettings,
} from "../../../../lib/measurement-systems/study-data";
import { Picture } from "../../../capability/[id]/picture";
import { Section } from "../../../fittings/page-frame";
import { Table } from "../../../fittings/table";
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
  const level = percent(settings.confidence);
  const sign = unitSign(unit);
  const fittedAt = (reference: number) =>
    linearity?.fitted.find((one) => one.reference === reference) ?? null;
  return (
    <>
      <Section title="Bias at each size" term="bias">
        <Table
          caption={`${counted(pieces.length, "size")}${sign === "" ? "" : `, in ${sign}`}; intervals with ${level} confidence`}
          rows={pieces}
          rowKey={({ reference }) => reference}
          columns={[
            {
              key: "reference",
              head: "Known size",
              figures: true,
              names: true,
              cell: ({ reference }) => reference,
            },
            { key: "count", head: "Readings", figures: true, cell: ({ bias }) => bias?.count ?? 1 },
            {
              key: "bias",
              head: "Bias",
              figures: true,
              cell: ({ bias }) => (bias ? <data value={bias.bias}>{figure(bias.bias)}</data> : ""),
            },
            {
              key: "interval",
              head: "Interval",
              figures: true,
              cell: ({ bias }) => (bias ? `${figure(bias.interval[0])} to ${figure(bias.interval[1])}` : ""),
            },
            {
              key: "p",
              head: "p",
              figures: true,
              cell: ({ bias }) => (bias?.p == null ? "" : <data value={bias.p}>{figure(bias.p)}</data>),
            },
            {
              key: "line",
              head: "By the line",
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
          <Section title="The line">
            <Table
              caption="Bias over size by least squares"
              rows={[
                { name: "slope", ...linearity.line.slope },
                { name: "at size 0", ...linearity.line.intercept },
              ]}
              rowKey={({ name }) => name}
              columns={[
                { key: "name", head: "Figure", cell: ({ name }) => name },
                {
                  key: "estimate",
                  head: "Estimate",
                  figures: true,
                  cell: (row) => <data value={row.estimate}>{figure(row.estimate)}</data>,
                },
                {
                  key: "se",
                  head: "Standard error",
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
      <Formulas formulas={formulasOf(result)} assumptions={assumptionsOf(result)} />
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
  const sign = unitSign(unit);
  const inUnit = sign === "" ? "" : ` in ${sign}`;
  const path = (points: readonly (readonly [number, number])[]) =>
    points.map(([px, py], i) => `${i === 0 ? "M" : "L"}${at(px)} ${at(py)}`).join("");
  return (
    <Picture
      id="linearity"
      title="Bias over size"
      isWide
      description={`Deviations of ${counted(readings.length, "reading")} from the known sizes of ${counted(means.length, "piece")}, and the line through them.`}
      size={PLOT}
      words={`Dots are readings less the known size, squares their means; the line is their regression and the band its ${level} interval. ${linearity.isFree ? "No bias lies within the band everywhere." : "Somewhere the band leaves no bias outside."}`}
      table={
        <Table
          caption="The line and its band"
          rows={fitted}
          rowKey={({ reference }) => reference}
          columns={[
            {
              key: "reference",
              head: "Known size",
              figures: true,
              names: true,
              cell: ({ reference }) => reference,
            },
            {
              key: "bias",
              head: "By the line",
              figures: true,
              cell: ({ bias }) => <data value={bias}>{figure(bias)}</data>,
            },
            {
              key: "lower",
              head: "Lower",
              figures: true,
              cell: ({ lower }) => <data value={lower}>{figure(lower)}</data>,
            },
            {
              key: "upper",
              head: "Upper",
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
      <ValueGrid span={span} y={y} title={`reading less known size${inUnit}`} />
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
      <BottomTitle title={`known size${inUnit}`} />
    </Picture>
  );
}

function formulasOf({ linearity, pieces }: Result): Formula[] {
  const first = pieces.find(({ bias }) => bias !== null);
  const bias = first?.bias;
  return [
    ...(bias
      ? [
          {
            figure: `Bias at ${first.reference}`,
            formula: "mean of (reading − reference), t = bias / (s / √n)",
            numbers: `${figure(bias.bias)}${bias.t === null ? "" : `, t = ${figure(bias.bias)} / (${figure(bias.standardDeviation)} / √${bias.count}) = ${figure(bias.t)}`}`,
            source: "NIST/SEMATECH e-Handbook 1.3.5.2",
          },
        ]
      : []),
    ...(linearity
      ? [
          {
            figure: "Line",
            formula: "bias = a + b · size",
            numbers: `bias = ${figure(linearity.line.intercept.estimate)} + ${figure(linearity.line.slope.estimate)} × size; residual standard deviation ${figure(linearity.line.residualStandardDeviation)}`,
            source:
              "AIAG, Measurement Systems Analysis, 4th edition (from memory); NIST/SEMATECH e-Handbook 2.4.5",
          },
          {
            figure: "Band",
            formula: "a + b·x ± t·s·√(1/n + (x − x̄)²/Sₓₓ)",
            numbers: `with ${linearity.line.degreesOfFreedom} degrees of freedom`,
            source: "the same",
          },
        ]
      : []),
  ];
}

function assumptionsOf({ pieces }: Result) {
  return [
    {
      words: `At least five sizes over the range that is measured: ${pieces.length}.`,
      holds: pieces.length >= 5,
    },
    { words: "The known sizes are known far better than the gauge reads them.", holds: null },
    { words: "The gauge scatters alike at every size.", holds: null },
  ];
}
