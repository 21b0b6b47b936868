import { use } from "react";
import { markPath, SOURCE_MARKS } from "../../../../lib/chart/mark-path";
import { linearScale, spanOf } from "../../../../lib/chart/scale";
import { fixed, unitName } from "../../../../lib/format/numbers";
import { arrangeCrossed, type StudyReading } from "../../../../lib/measurement-systems/arrange";
import { mean } from "../../../../lib/summary/moments";
import { Picture } from "../../../capability/[id]/picture";
import { Table } from "../../../fittings/table";
import { words } from "../../../language/language";
import { at, BottomTitle, PLOT, ValueGrid } from "./axes";
import styles from "./study.module.css";

/** More operators than this look alike again; their order tells them apart as well. */
const LOOKS = 6;

/** Every reading less the mean of its part, side by side by operator: who reads high, who scatters, and on which part. */
export function CrossedPicture({
  readings,
  unit,
  places,
}: {
  readings: readonly StudyReading[];
  unit: string;
  places: number;
}) {
  const { parts, operators, values } = arrangeCrossed(readings);
  const partMeans = values.map((row) => mean(row.flat()));
  const deviations = values.map((row, i) => row.map((cell) => cell.map((value) => value - partMeans[i]!)));
  const span = spanOf(deviations.flat(2), { margin: 0.1 });
  const y = linearScale(span, { start: PLOT.bottom, end: PLOT.top });
  const step = (PLOT.right - PLOT.left) / parts.length;
  const x = (part: number, operator: number) =>
    PLOT.left + step * (part + 0.18 + (0.64 * (operator + 0.5)) / operators.length);
  const operatorMeans = operators.map((_, j) => mean(deviations.flatMap((row) => row[j]!)));
  const sign = unitName(unit, use(words()).figures);
  const { picture: said } = use(words()).gaugeStudies.crossed;
  const rows = parts.flatMap((part, i) =>
    operators.map((operator, j) => ({
      part,
      operator,
      readings: values[i]![j]!.map((value) => fixed(value, places)).join(", "),
      mean: mean(values[i]![j]!),
    })),
  );
  return (
    <Picture
      id="crossed"
      title={said.title}
      isWide
      description={said.description(parts.length, operators.length)}
      size={PLOT}
      words={said.words(
        operators
          .map((operator, j) =>
            said.reads(
              operator,
              said.shapes[SOURCE_MARKS[j % LOOKS]!],
              fixed(operatorMeans[j]!, places + 1, { signed: true }),
            ),
          )
          .join(", "),
        sign,
      )}
      table={
        <Table
          caption={said.caption}
          rows={rows}
          rowKey={({ part, operator }) => `${part} ${operator}`}
          columns={[
            { key: "part", head: said.heads.part, cell: ({ part }) => part },
            { key: "operator", head: said.heads.operator, cell: ({ operator }) => operator },
            { key: "readings", head: said.heads.readings, cell: (row) => row.readings },
            {
              key: "mean",
              head: said.heads.mean,
              figures: true,
              cell: (row) => <data value={row.mean}>{fixed(row.mean, places + 1)}</data>,
            },
          ]}
        />
      }
    >
      <ValueGrid span={span} y={y} title={said.across(sign)} />
      {parts.map((part, i) => (
        <g key={part}>
          <line
            className={styles.grid}
            x1={at(PLOT.left + step * i)}
            x2={at(PLOT.left + step * i)}
            y1={PLOT.top}
            y2={PLOT.bottom}
          />
          {parts.length <= 20 || i % 5 === 0 ? (
            <text
              className={styles.tick}
              x={at(PLOT.left + step * (i + 0.5))}
              y={PLOT.bottom + 19}
              textAnchor="middle"
            >
              {part.length > 9 ? `${part.slice(0, 8)}…` : part}
            </text>
          ) : null}
        </g>
      ))}
      {operators.map((operator, j) => (
        <path
          key={operator}
          className={styles[`marks${j % LOOKS}`]}
          d={deviations
            .flatMap((row, i) =>
              row[j]!.map((value) => markPath(SOURCE_MARKS[j % LOOKS]!, x(i, j), y(value), 4)),
            )
            .join("")}
        />
      ))}
      <line className={styles.axis} x1={PLOT.left} x2={PLOT.right} y1={PLOT.bottom} y2={PLOT.bottom} />
      <BottomTitle title={said.along} />
    </Picture>
  );
}
