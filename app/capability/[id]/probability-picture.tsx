import type { Normality } from "../../../lib/capability/normality";
import type { PlottedReading, ProbabilityPlot } from "../../../lib/capability/probability-plot";
import { percent, pWords } from "../../../lib/capability/words";
import { markPath } from "../../../lib/chart/mark-path";
import { spanOf } from "../../../lib/chart/scale";
import { normalCdf, normalQuantile } from "../../../lib/distributions/normal";
import { counted, fixed } from "../../../lib/format/numbers";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import styles from "./detail.module.css";
import { at, FIGURE, horizontal, vertical } from "./figure-places";
import { Picture } from "./picture";
import type { ShownFeature } from "./shown-feature";
import { BeyondTolerance, LimitLines, ValueAxis } from "./value-axis";

const SHARES = [0.0001, 0.001, 0.01, 0.05, 0.2, 0.5, 0.8, 0.95, 0.99, 0.999, 0.9999];

/** A table of four hundred ranks is no reading matter: the tails and every tenth between. */
const TABLE_TAIL = 5;

/** Readings against a normal scale, with the band in which a normal process would have each. */
export function ProbabilityPicture({
  plot: { count, mean, sigma, confidence, points },
  normality,
  significance,
  feature,
}: {
  plot: ProbabilityPlot;
  normality: Normality | null;
  significance: number;
  feature: ShownFeature;
}) {
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
  const strays = points.filter(({ value, low, high }) => value < low || value > high).length;
  const band = `${path(points.map(({ low, z }) => [x(low), y(z)]))}${path(
    [...points].reverse().map(({ high, z }) => [x(high), y(z)]),
  ).replace("M", "L")}Z`;
  const drawn =
    points.length < count
      ? `${points.length} of ${counted(count, "reading")}, both tails whole`
      : counted(count, "reading");

  return (
    <Picture
      id="probability"
      title="Normal probability plot"
      description={`${drawn}, smallest at the lower left. On the straight line lies what a normal process with their mean and standard deviation would give; ${strays} of the points drawn lie outside its ${percent(confidence)} band.`}
      size={FIGURE}
      words={
        <>
          {drawn}; {strays === 0 ? "none" : strays} outside the {percent(confidence)} band, which holds each
          rank by itself, so a few outside are no surprise. {testWords(normality, significance)}
        </>
      }
      table={
        <Table
          caption="Readings by rank: both tails and every tenth of the points between"
          rows={points.filter((_, i) => i < TABLE_TAIL || i >= points.length - TABLE_TAIL || i % 10 === 0)}
          rowKey={({ rank }) => rank}
          columns={[
            { key: "rank", head: "Rank", cell: ({ rank }) => rank },
            {
              key: "share",
              head: "Share below",
              figures: true,
              cell: ({ z }) => `${fixed(100 * normalCdf(z), 2)} %`,
            },
            {
              key: "value",
              head: "Reading",
              figures: true,
              cell: ({ value }) => <Num value={value} places={places} />,
            },
            {
              key: "low",
              head: "Band from",
              figures: true,
              cell: ({ low }) => <Num value={low} places={places + 1} />,
            },
            {
              key: "high",
              head: "to",
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
              {Number((100 * share).toFixed(2))} %
            </text>
          </g>
        ))}
      <path className={styles.band} d={band} />
      <path
        className={styles.curve}
        d={path(
          [-reach, reach].map((z) => [
            x(Math.min(span.high, Math.max(span.low, mean + sigma * z))),
            y(clipped(z)),
          ]),
        )}
      />
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

  /** Where the line meets the edge of the picture. */
  function clipped(z: number): number {
    return (Math.min(span.high, Math.max(span.low, mean + sigma * z)) - mean) / sigma;
  }
}

function path(places: readonly (readonly number[])[]): string {
  return places.map(([x, y], i) => `${i === 0 ? "M" : "L"}${at(x!)} ${at(y!)}`).join("");
}

function testWords(normality: Normality | null, significance: number): string {
  if (normality === null) return "Too few readings for a test of normality.";
  const { A2, p, spreadOverGrid } = normality;
  const figures = `Anderson-Darling A² ${A2.toFixed(3)}, ${pWords(p)}`;
  if (p >= significance) return `${figures}: nothing speaks against a normal process.`;
  if (spreadOverGrid !== null && spreadOverGrid.p >= significance) {
    return `${figures}; spread over the steps of the gauge ${pWords(spreadOverGrid.p)}: the steps are seen, not the process.`;
  }
  return `${figures}: a normal process would hardly give these readings.`;
}
