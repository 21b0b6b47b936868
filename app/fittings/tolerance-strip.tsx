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
      {tickPaths(strip.ticks).map(({ look, opacity, path }) => (
        <path key={`${look} ${opacity}`} className={styles[look]} opacity={opacity} d={path} />
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

type TickLook = "tick" | "outside" | "newest" | "newestOutside";

/** Steps of fading that an eye tells apart. */
const FADES = 5;

/**
 * Ticks of one look and age as one path. A board shows hundreds of strips: with an element for each tick it was three
 * times as large, and took as much longer to make, send and draw.
 */
function tickPaths(ticks: readonly Tick[]): { look: TickLook; opacity: number; path: string }[] {
  const paths = new Map<string, { look: TickLook; opacity: number; path: string }>();
  for (const tick of ticks) {
    const isNewest = tick.age === 0;
    const look = isNewest ? (tick.outside ? "newestOutside" : "newest") : tick.outside ? "outside" : "tick";
    const opacity = Math.round(tick.strength * FADES) / FADES;
    const key = `${look} ${opacity}`;
    const drawn = paths.get(key) ?? { look, opacity, path: "" };
    drawn.path += tickPath(tick, isNewest ? 11 : 7);
    paths.set(key, drawn);
  }
  return [...paths.values()];
}

function tickPath({ at, outside, clipped }: Tick, reach: number): string {
  const x = Math.round(10 * Math.min(WIDTH - 2, Math.max(2, at * WIDTH))) / 10;
  const line = `M${x} ${MIDDLE - reach}v${2 * reach}`;
  return outside || clipped ? `${line}M${x} ${MIDDLE - 3}l3 3-3 3-3-3Z` : line;
}

function limitsNow(chart: FeaturePlan["chart"], standing: StripStanding | null) {
  if (!standing || standing.centre === null || !standing.sigma || standing.size === null) return null;
  return limitsForSize({ chart, centre: standing.centre, sigma: standing.sigma }, standing.size).location;
}
