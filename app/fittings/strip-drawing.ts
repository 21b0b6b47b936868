import { type Bar, stripGeometry, type Tick } from "../../lib/board/strip";
import { stripWords } from "../../lib/board/strip-words";
import type { Standing } from "../../lib/evaluation/standing";
import { limitsForSize } from "../../lib/limits/limits-for-size";
import type { FeaturePlan, KnownUnit } from "../../lib/plan/feature-plan";
import type { CommonWords } from "../../lib/words/common";

/** The drawing's own units: `DrawnStrip` shows so many of them. */
const WIDTH = 240;
const HEIGHT = 26;
const MIDDLE = HEIGHT / 2;

export type StripFeature = { unit: KnownUnit; resolution: number | null; plan: FeaturePlan };
export type StripStanding = Pick<Standing, "means" | "centre" | "sigma" | "betweenLots" | "size">;

/** Steps of fading that an eye tells apart; the last is the full strength. */
const FADES = 5;

type Fade = 1 | 2 | 3 | 4 | 5;
export type StripLook =
  | "ground"
  | "tolerance"
  | "end"
  | "limits"
  | "centre"
  | `${"tick" | "outside"}${Fade}`
  | "newest"
  | "newestOutside";

/** A strip ready to be drawn: what it says to who does not see it, and its paths from the lowest to the uppermost. */
export type StripDrawing = { label: string; paths: [look: StripLook, d: string][] };

/**
 * A feature's latest subgroup means on a bar whose tolerance is equally wide for every feature: the pale bar is the
 * tolerance, the band within it the control limits, each tick a subgroup mean, the darkest the newest. A mean outside
 * the tolerance ends in a diamond.
 */
export function drawStrip(
  { feature, standing }: { feature: StripFeature; standing: StripStanding | null },
  words: Pick<CommonWords, "fittings" | "figures">,
): StripDrawing {
  const { tolerance, naturalBound, chart } = feature.plan;
  const means = standing?.means ?? [];
  const limits = limitsNow(chart, standing);
  const strip = stripGeometry({ tolerance, naturalBound, limits, means });
  const paths: StripDrawing["paths"] = strip.tolerance
    ? toleranceBar(strip.tolerance)
    : [["ground", `M0 ${MIDDLE}h${WIDTH}`]];
  if (strip.limits) {
    const { from, to } = strip.limits;
    const width = Math.max(1, (to - from) * WIDTH);
    paths.push(["limits", bar(from, width, 5)]);
  }
  if (strip.centre !== null) paths.push(["centre", line(strip.centre, 5)]);
  return {
    label: stripWords({ ...feature, limits, means }, words),
    paths: [...paths, ...tickPaths(strip.ticks)],
  };
}

function toleranceBar({ from, to, openFrom, openTo }: Bar): StripDrawing["paths"] {
  const ends = `${openFrom ? "" : line(from, 9)}${openTo ? "" : line(to, 9)}`;
  const whole = bar(from, (to - from) * WIDTH, 2.5);
  return ends === ""
    ? [["tolerance", whole]]
    : [
        ["tolerance", whole],
        ["end", ends],
      ];
}

function bar(from: number, width: number, reach: number): string {
  return `M${placed(from * WIDTH)} ${MIDDLE - reach}h${placed(width)}v${2 * reach}h${placed(-width)}Z`;
}

function line(at: number, reach: number): string {
  return `M${placed(at * WIDTH)} ${MIDDLE - reach}v${2 * reach}`;
}

/** A tenth of a unit is less than a screen shows. */
function placed(x: number): number {
  return Math.round(10 * x) / 10;
}

/**
 * Ticks of one look and age as one path. A board shows a hundred strips: with an element for each tick it was three
 * times as large, and took as much longer to make, send and draw.
 */
function tickPaths(ticks: readonly Tick[]): StripDrawing["paths"] {
  const paths = new Map<StripLook, string>();
  for (const tick of ticks) {
    const isNewest = tick.age === 0;
    const fade = Math.round(tick.strength * FADES) as Fade;
    const look: StripLook = isNewest
      ? tick.outside
        ? "newestOutside"
        : "newest"
      : `${tick.outside ? "outside" : "tick"}${fade}`;
    paths.set(look, (paths.get(look) ?? "") + tickPath(tick, isNewest ? 11 : 7));
  }
  return [...paths];
}

function tickPath({ at, outside, clipped }: Tick, reach: number): string {
  const x = placed(Math.min(WIDTH - 2, Math.max(2, at * WIDTH)));
  const tick = `M${x} ${MIDDLE - reach}v${2 * reach}`;
  return outside || clipped ? `${tick}M${x} ${MIDDLE - 3}l3 3-3 3-3-3Z` : tick;
}

function limitsNow(chart: FeaturePlan["chart"], standing: StripStanding | null) {
  if (!standing || standing.centre === null || !standing.sigma || standing.size === null) return null;
  const { centre, sigma, betweenLots, size } = standing;
  return limitsForSize({ chart, centre, sigma, betweenLots: betweenLots ?? undefined }, size).location;
}
