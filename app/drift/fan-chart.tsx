import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import { quantileWords } from "../../lib/drift/flag-words";
import type { FeatureForecast } from "../../lib/drift/forecast";
import { fixed, placesOf, withUnit } from "../../lib/format/numbers";
import { KeepPicture } from "../fittings/keep-picture";
import { words } from "../language/language";
import styles from "./course-chart.module.css";

const WIDTH = 860;
const HEIGHT = 230;
const LEFT = 76;
const RIGHT = 190;
const TOP = 18;
const BOTTOM = 36;

/**
 * Where the mean of the first feature goes: from what it was, over what it has reached, on to its tolerance limit,
 * with the slowest and fastest of 90 of 100 cases. Pieces of the source run to the right.
 */
export function FanChart({
  flag: { latest },
  forecasts,
  resolution,
}: {
  flag: FlagRow;
  forecasts: readonly FeatureForecast[];
  resolution: number | null;
}) {
  const { forecast: said } = use(words()).driftPage;
  const towards = forecasts.find(({ limit }) => limit === "tolerance");
  if (towards === undefined) return null;
  const { pieces, level, bound, part, feature, side } = towards;
  const shift = latest.features.find((one) => one.part === part && one.feature === feature);
  const reach = Number.isFinite(pieces.high) ? pieces.high : 3 * pieces.median;
  if (!(reach > 0) || shift === undefined) return null;
  const base = level - shift.shift;
  const since = latest.evidence.own.filter(({ at }) => at >= latest.onset.at);
  const behind = Math.max(
    1,
    since.reduce((sum, { pieces: count }) => sum + count, 0),
  );
  const control = forecasts.find(({ limit }) => limit === "control");
  const lines = [
    { value: bound, label: said.limits.tolerance[side], look: styles.limit },
    ...(control ? [{ value: control.bound, label: said.control, look: styles.control }] : []),
    { value: base, label: said.before, look: styles.zero },
  ];
  const lowest = Math.min(...lines.map(({ value }) => value), level);
  const highest = Math.max(...lines.map(({ value }) => value), level);
  const room = 0.06 * (highest - lowest);
  const x = (at: number) => LEFT + ((at + behind) * (WIDTH - LEFT - RIGHT)) / (behind + 1.05 * reach);
  const y = (value: number) =>
    TOP + ((highest + room - value) * (HEIGHT - TOP - BOTTOM)) / (highest - lowest + 2 * room);
  const places = placesOf(resolution) + 1;
  const until = (at: number) => (Number.isFinite(at) ? at : reach);
  const edge = `M${x(0)} ${y(level)}L${x(until(pieces.low))} ${y(bound)}L${x(until(pieces.high))} ${y(bound)}Z`;
  const ticks = niceTicks(reach);
  return (
    <KeepPicture title={said.of(feature)}>
      <section className={styles.frame} aria-label={said.of(feature)} {...REACHABLE}>
        <svg
          viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
          role="img"
          aria-label={said.spoken({
            feature,
            level: withUnit(fixed(level, places), shift.unit),
            limit: said.limits.tolerance[side],
            bound: withUnit(fixed(bound, places), shift.unit),
            when: quantileWords(pieces, "piece", said),
          })}
          className={styles.chart}
        >
          {lines.map(({ value, label, look }) => (
            <g key={label}>
              <line className={look} x1={LEFT} x2={WIDTH - RIGHT} y1={y(value)} y2={y(value)} />
              <text x={WIDTH - RIGHT + 8} y={y(value) + 4}>
                {label} {fixed(value, places)}
              </text>
            </g>
          ))}
          <path className={styles.fan} d={edge} />
          <path className={styles.past} d={`M${x(-behind)} ${y(base)}L${x(0)} ${y(level)}`} />
          {Number.isFinite(pieces.median) ? (
            <path className={styles.ahead} d={`M${x(0)} ${y(level)}L${x(pieces.median)} ${y(bound)}`} />
          ) : null}
          <line className={styles.boundary} x1={x(0)} x2={x(0)} y1={TOP - 8} y2={HEIGHT - BOTTOM} />
          <text className={styles.boundaryText} x={x(0)} y={HEIGHT - 20} textAnchor="middle">
            {said.now}
          </text>
          {ticks.map((tick) => (
            <text key={tick} x={x(tick)} y={HEIGHT - 20} textAnchor="middle">
              +{tick}
            </text>
          ))}
          <text x={(LEFT + WIDTH - RIGHT) / 2} y={HEIGHT - 4} textAnchor="middle">
            {said.axis}
          </text>
          <text x={LEFT - 10} y={y(level) + 4} textAnchor="end">
            {fixed(level, places)}
          </text>
        </svg>
      </section>
    </KeepPicture>
  );
}

/** A frame that scrolls must be reachable by keyboard (WCAG 2.2, 2.1.1). */
const REACHABLE = { tabIndex: 0 };

function niceTicks(reach: number): number[] {
  const rough = reach / 4;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((one) => one * power).find((one) => one >= rough) ?? rough;
  return Array.from({ length: Math.floor(reach / step) }, (_, i) => Math.round((i + 1) * step)).filter(
    (tick) => tick > 0,
  );
}
