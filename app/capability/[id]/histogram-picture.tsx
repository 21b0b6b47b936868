import { use } from "react";
import type { Histogram } from "../../../lib/capability/histogram";

import { niceTicks } from "../../../lib/chart/scale";
import { shownSpan } from "../../../lib/chart/shown-span";
import type { Distribution } from "../../../lib/distributions/distribution";
import { significant } from "../../../lib/format/figures";
import { inDigits, withUnit } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import type { Words } from "../../../lib/words/words";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";
import styles from "./detail.module.css";
import { at, FIGURE, horizontal, vertical } from "./figure-places";
import { Picture } from "./picture";
import { BeyondTolerance, LimitLines, ValueAxis } from "./value-axis";

/** Of more steps in a bin nobody can see one. */
const MOST_STEPS_SAID = 50;

/** Places on the fitted curve; enough that it looks round. */
const CURVE_POINTS = 160;

/** How often readings fell where, under the curve of the model behind the indices. */
export function HistogramPicture({
  histogram: { bins, width, step, rule },
  count,
  mean,
  sigma,
  model,
  feature,
}: {
  histogram: Histogram;
  count: number;
  mean: number;
  sigma: number;
  /** Null for the normal one; else its name in words. */
  model: { words: string | null; distribution: Distribution };
  feature: ShownFeature;
}) {
  const { histogram: said } = use(words()).capability.pictures;
  const { heads } = said;
  const { tolerance, unit, shown, places } = feature;
  const data = { low: bins[0]!.from, high: bins.at(-1)!.to };
  const { span, isWhole } = shownSpan(data, tolerance);
  const highest = Math.max(...bins.map((bin) => bin.count));
  const curve = curvePlaces(model.distribution, { span, scale: count * width, mean, sigma });
  // A curve that rises without end at its bound is cut off, not the bars pressed flat.
  const top = 1.06 * Math.max(highest, Math.min(2 * highest, Math.max(...curve.map(([, count]) => count))));
  const x = horizontal(span, FIGURE);
  const y = vertical({ low: 0, high: top }, FIGURE);
  const ticks = niceTicks({ low: 0, high: top }, 5).values.filter(Number.isInteger);

  const outside = bins.reduce((sum, bin) => sum + bin.outside, 0);
  const widthWords = withUnit(widthText(width), unit);
  return (
    <Picture
      id="histogram"
      title={said.title(model.words)}
      description={said.description({
        count,
        bins: bins.length,
        width: widthWords,
        from: shown(data.low),
        to: withUnit(shown(data.high), unit),
        fullest: highest,
        outside,
      })}
      size={FIGURE}
      words={
        <>
          {said.bins(widthWords)}
          {step === null || width > MOST_STEPS_SAID * step ? "" : said.steps(Math.round(width / step))}
          {said.rule(rule)}
          {said.curve(model.words)}
          {outside > 0 ? said.hatched(outside) : ""}
          {isWhole ? "" : farLimits(feature, { mean, sigma }, said)}
        </>
      }
      table={
        <Table
          caption={said.caption}
          rows={bins}
          rowKey={({ from }) => from}
          columns={[
            { key: "from", head: heads.from, cell: ({ from }) => <Num value={from} places={places + 1} /> },
            {
              key: "to",
              head: heads.to,
              figures: true,
              cell: ({ to }) => <Num value={to} places={places + 1} />,
            },
            { key: "count", head: heads.count, figures: true, cell: (bin) => bin.count },
            { key: "outside", head: heads.outside, figures: true, cell: (bin) => bin.outside },
          ]}
        />
      }
    >
      <defs>
        <pattern
          id="outside-hatch"
          width="6"
          height="6"
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <rect className={styles.hatchGround} width="6" height="6" />
          <line className={styles.hatchLine} x1="1.5" x2="1.5" y1="0" y2="6" />
        </pattern>
      </defs>
      <BeyondTolerance span={span} tolerance={tolerance} />
      {ticks.map((tick) => (
        <g key={tick}>
          <line
            className={styles.grid}
            x1={FIGURE.left}
            x2={FIGURE.right}
            y1={at(y(tick))}
            y2={at(y(tick))}
          />
          <text className={styles.tick} x={FIGURE.left - 7} y={at(y(tick)) + 4} textAnchor="end">
            {tick}
          </text>
        </g>
      ))}
      {bins.map((bin) => {
        const left = x(bin.from);
        const wide = Math.max(0.75, x(bin.to) - left - 1);
        const inside = bin.count - bin.outside;
        return (
          <g key={bin.from}>
            {inside > 0 ? (
              <rect
                className={styles.bar}
                x={at(left)}
                width={at(wide)}
                y={at(y(bin.count))}
                height={at(y(bin.outside) - y(bin.count))}
              />
            ) : null}
            {bin.outside > 0 ? (
              <rect
                className={styles.outsideBar}
                x={at(left)}
                width={at(wide)}
                y={at(y(bin.outside))}
                height={at(y(0) - y(bin.outside))}
              />
            ) : null}
          </g>
        );
      })}
      <path
        className={styles.curve}
        d={curve
          .map(
            ([value, height], i) => `${i === 0 ? "M" : "L"}${at(x(value))} ${at(y(Math.min(height, top)))}`,
          )
          .join("")}
      />
      <LimitLines span={span} marks={feature} shown={shown} />
      <ValueAxis span={span} unit={unit} isReduced={feature.isReduced} />
    </Picture>
  );
}

/** Readings that the model puts into a bin of this width, along the part of the span where it lies. */
function curvePlaces(
  { density }: Distribution,
  {
    span,
    scale,
    mean,
    sigma,
  }: { span: { low: number; high: number }; scale: number; mean: number; sigma: number },
): [value: number, count: number][] {
  const from = Math.max(span.low, mean - 4.5 * sigma);
  const to = Math.min(span.high, mean + 6 * sigma);
  return Array.from({ length: CURVE_POINTS + 1 }, (_, i): [number, number] => {
    const value = from + ((to - from) * i) / CURVE_POINTS;
    return [value, scale * density(value)];
  }).filter(([, count]) => Number.isFinite(count));
}

/** Widths are round figures: as few digits as they have. */
function widthText(width: number): string {
  return width < 1e-5 ? significant(width, 1) : inDigits(width, 4);
}

/** Limits too far off to be drawn, in words. */
function farLimits(
  { tolerance, shown }: ShownFeature,
  { mean, sigma }: { mean: number; sigma: number },
  words: Words["capability"]["pictures"]["histogram"],
): string {
  const far = [
    { limit: tolerance.lower, name: "lower" as const },
    { limit: tolerance.upper, name: "upper" as const },
  ].flatMap(({ limit, name }) =>
    limit === null ? [] : [words.farLimit(name, shown(limit), Math.round(Math.abs(limit - mean) / sigma))],
  );
  return words.far(far.join(", "));
}
