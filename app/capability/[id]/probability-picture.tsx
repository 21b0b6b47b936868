import { use } from "react";
import type { PlottedReading, ProbabilityPlot } from "../../../lib/capability/probability-plot";
import { percent } from "../../../lib/capability/words";
import { markPath } from "../../../lib/chart/mark-path";
import { spanOf } from "../../../lib/chart/scale";
import { normalCdf, normalQuantile } from "../../../lib/distributions/normal";
import { fixed, inDigits } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import styles from "./detail.module.css";
import { at, FIGURE, horizontal, vertical } from "./figure-places";
import { Picture } from "./picture";
import { BeyondTolerance, LimitLines, ValueAxis } from "./value-axis";

const SHARES = [0.0001, 0.001, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 0.999, 0.9999];

/** A table of four hundred ranks is no reading matter: the tails and every tenth between. */
const TABLE_TAIL = 5;

/** Readings against a normal scale, with the band in which the model would have each. */
export function ProbabilityPicture({
  plot: { count, line, confidence, points },
  model,
  test,
  feature,
}: {
  plot: ProbabilityPlot;
  /** Null for the normal one; else its name in words. */
  model: string | null;
  /** What a test of the distribution says of the readings. */
  test: string;
  feature: ShownFeature;
}) {
  const { probability: said } = use(words()).capability.pictures;
  const { heads } = said;
  const { tolerance, unit, shown, places } = feature;
  const reach = Math.max(...points.map(({ z }) => Math.abs(z))) + 0.35;
  const span = spanOf(
    points.flatMap(({ value, low, high }) => [value, low, high]),
    { margin: 0.04 },
  );
  const x = horizontal(span, FIGURE);
  const y = vertical({ low: -reach, high: reach }, FIGURE);
  const isBeyond = ({ value }: PlottedReading) =>
    (tolerance.lower !== null && value < tolerance.lower) ||
    (tolerance.upper !== null && value > tolerance.upper);
  const withinSpan = line.filter(({ value }) => value >= span.low && value <= span.high);
  const strays = points.filter(({ value, low, high }) => value < low || value > high).length;
  const band = `${path(points.map(({ low, z }) => [x(low), y(z)]))}${path(
    [...points].reverse().map(({ high, z }) => [x(high), y(z)]),
  ).replace("M", "L")}Z`;
  const drawn = said.drawn(points.length, count);

  return (
    <Picture
      id="probability"
      title={said.title(model)}
      description={said.description(drawn, model, strays, percent(confidence))}
      size={FIGURE}
      words={
        <>
          {said.words(drawn, strays, percent(confidence))}
          {test}
        </>
      }
      table={
        <Table
          caption={said.caption}
          rows={points.filter((_, i) => i < TABLE_TAIL || i >= points.length - TABLE_TAIL || i % 10 === 0)}
          rowKey={({ rank }) => rank}
          columns={[
            { key: "rank", head: heads.rank, cell: ({ rank }) => rank },
            {
              key: "share",
              head: heads.share,
              figures: true,
              cell: ({ z }) => `${fixed(100 * normalCdf(z), 2)} %`,
            },
            {
              key: "value",
              head: heads.value,
              figures: true,
              cell: ({ value }) => <Num value={value} places={places} />,
            },
            {
              key: "low",
              head: heads.low,
              figures: true,
              cell: ({ low }) => <Num value={low} places={places + 1} />,
            },
            {
              key: "high",
              head: heads.high,
              figures: true,
              cell: ({ high }) => <Num value={high} places={places + 1} />,
            },
          ]}
        />
      }
    >
      <BeyondTolerance span={span} tolerance={tolerance} />
      {SHARES.map((share) => ({ share, z: normalQuantile(share) }))
        .filter(({ z }) => Math.abs(z) <= reach)
        .map(({ share, z }) => (
          <g key={share}>
            <line className={styles.grid} x1={FIGURE.left} x2={FIGURE.right} y1={at(y(z))} y2={at(y(z))} />
            <text className={styles.tick} x={FIGURE.left - 7} y={at(y(z)) + 4} textAnchor="end">
              {inDigits(100 * share, 4)} %
            </text>
          </g>
        ))}
      <path className={styles.band} d={band} />
      <path className={styles.curve} d={path(withinSpan.map(({ value, z }) => [x(value), y(z)]))} />
      <path
        className={styles.dots}
        d={points
          .filter((point) => !isBeyond(point))
          .map(({ value, z }) => markPath("disc", x(value), y(z), 2.4))
          .join("")}
      />
      <path
        className={styles.beyondDots}
        d={points
          .filter(isBeyond)
          .map(({ value, z }) => markPath("diamond", x(value), y(z), 3))
          .join("")}
      />
      <LimitLines span={span} marks={feature} shown={shown} />
      <ValueAxis span={span} unit={unit} isReduced={feature.isReduced} />
    </Picture>
  );
}

function path(places: readonly (readonly number[])[]): string {
  return places.map(([x, y], i) => `${i === 0 ? "M" : "L"}${at(x!)} ${at(y!)}`).join("");
}
