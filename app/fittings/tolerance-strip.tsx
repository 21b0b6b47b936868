import { useCommonWords } from "#common-words";
import { type Bar, stripGeometry, type Tick } from "../../lib/board/strip";
import { stripWords } from "../../lib/board/strip-words";
import type { Standing } from "../../lib/evaluation/standing";
import { limitsForSize } from "../../lib/limits/limits-for-size";
import type { FeaturePlan, KnownUnit } from "../../lib/plan/feature-plan";
import styles from "./tolerance-strip.module.css";

const WIDTH = 240;
const HEIGHT = 26;
const MIDDLE = HEIGHT / 2;

export type StripFeature = { unit: KnownUnit; resolution: number | null; plan: FeaturePlan };
export type StripStanding = Pick<Standing, "means" | "centre" | "sigma" | "size">;

/**
 * A feature's latest subgroup means on a bar whose tolerance is equally wide for every feature.
 *
 * The pale bar is the tolerance, the band within it the control limits, each tick a subgroup mean, the
 * darkest the newest. A mean outside the tolerance ends in a diamond. Plain SVG: a board shows hundreds.
 */
export function ToleranceStrip({
  feature,
  standing,
}: {
  feature: StripFeature;
  standing: StripStanding | null;
}) {
  const words = useCommonWords();
  const { tolerance, naturalBound, chart } = feature.plan;
  const means = standing?.means ?? [];
  const limits = limitsNow(chart, standing);
  const strip = stripGeometry({ tolerance, naturalBound, limits, means });
  return (
    <svg
      className={styles.strip}
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      role="img"
      aria-label={stripWords({ ...feature, limits, means }, words)}
    >
      {strip.tolerance ? (
        <ToleranceBar bar={strip.tolerance} />
      ) : (
        <line className={styles.ground} x1={0} x2={WIDTH} y1={MIDDLE} y2={MIDDLE} />
      )}
      {strip.limits ? (
        <rect
          className={styles.limits}
          x={strip.limits.from * WIDTH}
          width={Math.max(1, (strip.limits.to - strip.limits.from) * WIDTH)}
          y={MIDDLE - 5}
          height={10}
        />
      ) : null}
      {strip.centre === null ? null : (
        <line
          className={styles.centre}
          x1={strip.centre * WIDTH}
          x2={strip.centre * WIDTH}
          y1={MIDDLE - 5}
          y2={MIDDLE + 5}
        />
      )}
      {strip.ticks.map((tick) => (
        <TickMark key={tick.age} tick={tick} />
      ))}
    </svg>
  );
}

function ToleranceBar({ bar }: { bar: Bar }) {
  const from = bar.from * WIDTH;
  const to = bar.to * WIDTH;
  return (
    <>
      <rect className={styles.tolerance} x={from} width={to - from} y={MIDDLE - 2.5} height={5} />
      {bar.openFrom ? null : (
        <line className={styles.end} x1={from} x2={from} y1={MIDDLE - 9} y2={MIDDLE + 9} />
      )}
      {bar.openTo ? null : <line className={styles.end} x1={to} x2={to} y1={MIDDLE - 9} y2={MIDDLE + 9} />}
    </>
  );
}

function TickMark({ tick }: { tick: Tick }) {
  const isNewest = tick.age === 0;
  const x = Math.min(WIDTH - 2, Math.max(2, tick.at * WIDTH));
  const reach = isNewest ? 11 : 7;
  return (
    <g className={tick.outside ? styles.outside : styles.tick} opacity={tick.strength}>
      <line
        x1={x}
        x2={x}
        y1={MIDDLE - reach}
        y2={MIDDLE + reach}
        className={isNewest ? styles.newest : undefined}
      />
      {tick.outside || tick.clipped ? (
        <path d={`M${x} ${MIDDLE - 4} ${x + 4} ${MIDDLE} ${x} ${MIDDLE + 4} ${x - 4} ${MIDDLE}Z`} />
      ) : null}
    </g>
  );
}

function limitsNow(chart: FeaturePlan["chart"], standing: StripStanding | null) {
  if (!standing || standing.centre === null || !standing.sigma || standing.size === null) return null;
  return limitsForSize({ chart, centre: standing.centre, sigma: standing.sigma }, standing.size).location;
}
