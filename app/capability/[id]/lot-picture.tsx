import { use } from "react";
import type { LotSpan, LotSpans } from "../../../lib/capability/lot-spans";
import { markPath } from "../../../lib/chart/mark-path";
import { niceTicks, type Span } from "../../../lib/chart/scale";
import { shownSpan } from "../../../lib/chart/shown-span";
import { fixed, whole } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import styles from "./detail.module.css";
import { at, isWithin, LETTER, STRIP, spacedOut, vertical } from "./figure-places";
import { Picture } from "./picture";

/** About three units a lot; of more, the newest. */
const MOST_LOTS = 260;

const LABELS = 8;

/** Every lot from its smallest to its largest reading, its mean marked, in the order of time. */
export function LotPicture({
  spans: { lots, withoutLot },
  names,
  mean,
  feature,
  zone,
}: {
  spans: LotSpans;
  names: ReadonlyMap<number, string>;
  mean: number;
  feature: ShownFeature;
  zone: string;
}) {
  const { pictures } = use(words()).capability;
  const { lots: said } = pictures;
  const { heads } = said;
  const { tolerance, places } = feature;
  const drawn = lots.slice(-MOST_LOTS);
  const data = {
    low: Math.min(...drawn.map(({ min }) => min)),
    high: Math.max(...drawn.map(({ max }) => max)),
  };
  const { span } = shownSpan(data.low === data.high ? widened(data.low) : data, tolerance);
  const y = vertical(span, STRIP);
  const lines = [
    { value: tolerance.upper, name: pictures.upperLimit, places, className: styles.limit },
    { value: mean, name: pictures.mean, places: places + 1, className: styles.meanLine },
    { value: tolerance.lower, name: pictures.lowerLimit, places, className: styles.limit },
  ].flatMap(({ value, name, places: own, className }) =>
    value !== null && isWithin(span, value)
      ? [{ value, name, label: `${name} ${fixed(value, own)}`, className }]
      : [],
  );
  const labelPlaces = spacedOut(
    lines.map(({ value }) => y(value)),
    16,
  );
  const right = STRIP.width - 16 - LETTER * Math.max(0, ...lines.map(({ label }) => label.length));
  const step = (right - STRIP.left) / drawn.length;
  const x = (i: number) => STRIP.left + (i + 0.5) * step;
  const codeOf = ({ lot }: LotSpan) => names.get(lot) ?? said.noName(lot);
  const isOutside = ({ min, max }: LotSpan) =>
    (tolerance.lower !== null && min < tolerance.lower) ||
    (tolerance.upper !== null && max > tolerance.upper);
  const outside = drawn.filter(isOutside).length;
  const radius = Math.max(1.1, Math.min(3.2, step * 0.4));
  return (
    <Picture
      id="lots"
      title={said.title}
      isWide
      description={said.description(drawn.length, codeOf(drawn[0]!), codeOf(drawn.at(-1)!), outside)}
      size={STRIP}
      words={
        <>
          {said.shown(drawn.length, lots.length)}
          {said.outside(outside)}
          {withoutLot > 0 ? said.without(withoutLot) : ""}
        </>
      }
      table={
        <Table
          caption={said.caption(drawn.length)}
          rows={drawn}
          rowKey={({ lot }) => lot}
          columns={[
            { key: "lot", head: heads.lot, cell: codeOf },
            {
              key: "first",
              head: heads.first,
              cell: ({ firstAt }) => <When at={firstAt} zone={zone} as="short" />,
            },
            { key: "count", head: heads.count, figures: true, cell: ({ count }) => whole(count) },
            {
              key: "min",
              head: heads.min,
              figures: true,
              cell: ({ min }) => <Num value={min} places={places} />,
            },
            {
              key: "mean",
              head: heads.mean,
              figures: true,
              cell: (lot) => <Num value={lot.mean} places={places + 1} />,
            },
            {
              key: "max",
              head: heads.max,
              figures: true,
              cell: ({ max }) => <Num value={max} places={places} />,
            },
          ]}
        />
      }
    >
      <ValueTicks span={span} right={right} />
      {lines.map(({ value, name, label, className }, i) => (
        <g key={name}>
          <line className={className} x1={STRIP.left} x2={right} y1={at(y(value))} y2={at(y(value))} />
          <text className={styles.limitName} x={right + 8} y={at(labelPlaces[i]!) + 4}>
            {label}
          </text>
        </g>
      ))}
      <path
        className={styles.lotSpan}
        style={{ strokeWidth: Math.max(0.9, Math.min(3, step * 0.3)) }}
        d={drawn.map(({ min, max }, i) => `M${at(x(i))} ${at(y(min))}V${at(y(max))}`).join("")}
      />
      <path
        className={styles.dots}
        d={drawn.map((lot, i) => markPath("disc", x(i), y(lot.mean), radius)).join("")}
      />
      <path
        className={styles.beyondDots}
        d={drawn
          .flatMap(({ min, max }, i) => [
            tolerance.lower !== null && min < tolerance.lower ? markPath("diamond", x(i), y(min), 3) : "",
            tolerance.upper !== null && max > tolerance.upper ? markPath("diamond", x(i), y(max), 3) : "",
          ])
          .join("")}
      />
      <line className={styles.axis} x1={STRIP.left} x2={right} y1={STRIP.bottom} y2={STRIP.bottom} />
      {labelled(drawn.length).map((i) => (
        <g key={drawn[i]!.lot}>
          <line className={styles.axis} x1={at(x(i))} x2={at(x(i))} y1={STRIP.bottom} y2={STRIP.bottom + 5} />
          <text className={styles.tick} x={at(x(i))} y={STRIP.bottom + 19} textAnchor="middle">
            {shortened(codeOf(drawn[i]!))}
          </text>
        </g>
      ))}
      <text
        className={styles.axisTitle}
        x={(STRIP.left + right) / 2}
        y={STRIP.bottom + 40}
        textAnchor="middle"
      >
        {said.axis}
      </text>
    </Picture>
  );
}

function ValueTicks({ span, right }: { span: Span; right: number }) {
  const y = vertical(span, STRIP);
  const { values, places } = niceTicks(span, 6);
  return (
    <g>
      {values.map((value) => (
        <g key={value}>
          <line className={styles.grid} x1={STRIP.left} x2={right} y1={at(y(value))} y2={at(y(value))} />
          <text className={styles.tick} x={STRIP.left - 7} y={at(y(value)) + 4} textAnchor="end">
            {fixed(value, places)}
          </text>
        </g>
      ))}
    </g>
  );
}

function widened(value: number): { low: number; high: number } {
  const reach = value === 0 ? 1 : Math.abs(value) * 1e-3;
  return { low: value - reach, high: value + reach };
}

/** Positions of some lots, evenly apart. */
function labelled(count: number): number[] {
  const every = Math.max(1, Math.ceil(count / LABELS));
  return Array.from({ length: Math.ceil(count / every) }, (_, k) => k * every);
}

function shortened(name: string): string {
  return name.length > 12 ? `${name.slice(0, 11)}…` : name;
}
