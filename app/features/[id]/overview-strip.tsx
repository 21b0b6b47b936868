import { use, useId } from "react";
import { heldOn } from "../../../lib/chart/axis-spans";
import { overviewOf } from "../../../lib/chart/feature-chart";
import { windowAddress } from "../../../lib/chart/overview-window";
import { linearScale } from "../../../lib/chart/scale";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { dayIn } from "../../../lib/format/times";
import { Link } from "../../fittings/link";
import { words } from "../../language/language";
import { numberOf } from "./chart-view";
import { type JudgedFeature, onceJudged } from "./judged-feature";
import { OverviewSteps } from "./overview-steps";
import { OverviewWindow } from "./overview-window";
import styles from "./panels.module.css";
import { StripMarks } from "./strip-marks";

/** A history that fits the chart at its usual width, or nearly so, needs no strip to find one's way in it. */
const SHORTEST = 130;
const HEIGHT = 64;

/**
 * The whole history in one strip, with the part that the chart shows in a frame. Plain SVG without a width
 * of its own: everything across is a share of the strip, so that it is right before any script runs.
 */
export function OverviewStrip({
  judged,
  window,
  address,
  zone,
}: {
  judged: JudgedFeature;
  /** With which the page was made. */
  window: ShownWindow;
  /** The page with its other query, without the window. */
  address: string;
  zone: string;
}) {
  const { count } = judged.evaluation.points;
  if (count === 0) return null;
  if (count < SHORTEST) return <ShortHistory count={count} window={window} address={address} />;
  return (
    <div className={styles.overview}>
      <OverviewWindow days={<Days evaluation={judged.evaluation} zone={zone} />}>
        <Strip judged={judged} />
      </OverviewWindow>
      <OverviewSteps />
    </div>
  );
}

function ShortHistory({ count, window, address }: { count: number; window: ShownWindow; address: string }) {
  const { strip: said } = use(words()).features;
  if (window.from === 0 && window.to === count - 1) {
    return <p className={styles.soft}>{said.whole(count)}</p>;
  }
  return (
    <p className={styles.soft}>
      {said.part(numberOf(window.from), numberOf(window.to), count)}{" "}
      <Link href={windowAddress(address, { from: 0, to: count - 1 })} scroll={false}>
        {said.showAll}
      </Link>
    </p>
  );
}

const overview = onceJudged(({ history, evaluation, patterns }) =>
  overviewOf(evaluation, { setup: history.setup, patterns }),
);

function Strip({ judged }: { judged: JudgedFeature }) {
  const diamond = useId();
  const hollow = useId();
  const { strip: said } = use(words()).features;
  const { points } = judged.evaluation;
  const { corners, marked, excluded, span } = overview(judged);
  const y = linearScale(span, { start: HEIGHT - 4, end: 4 });
  const up = (number: number) => Math.round(10 * y(heldOn(span, points.mean[number]!))) / 10;
  const line = Array.from(corners)
    .filter((number) => points.excluded[number] === 0)
    .map((number) => `${number + 0.5},${up(number)}`);
  const placesOf = (numbers: readonly number[]) =>
    numbers.map((number) => `${shareOf(number, points.count)},${up(number)}`).join(" ");
  return (
    <svg
      className={styles.strip}
      width="100%"
      height={HEIGHT}
      role="img"
      aria-label={said.spoken(points.count, marked.count, excluded.count)}
    >
      <defs>
        <path id={diamond} className={styles.marked} d="M0 -4 4 0 0 4 -4 0Z" />
        <path id={hollow} className={styles.hollow} d="M-3 0a3 3 0 1 0 6 0a3 3 0 1 0 -6 0Z" />
      </defs>
      <svg
        aria-hidden="true"
        width="100%"
        height={HEIGHT}
        viewBox={`0 0 ${points.count} ${HEIGHT}`}
        preserveAspectRatio="none"
      >
        <polyline className={styles.stripLine} points={line.join(" ")} />
      </svg>
      <StripMarks shape={hollow} places={placesOf(excluded.marks)} />
      <StripMarks shape={diamond} places={placesOf(marked.marks)} />
    </svg>
  );
}

/** The middle of a subgroup's place, in per cent of the strip. */
function shareOf(number: number, count: number): number {
  return Math.round((1e4 * (number + 0.5)) / count) / 100;
}

function Days({ evaluation, zone }: { evaluation: Evaluation; zone: string }) {
  const { count, at } = evaluation.points;
  const { times } = use(words());
  const shares = [0, 0.25, 0.5, 0.75, 1];
  return (
    <div className={styles.days} aria-hidden="true">
      {shares.map((share) => (
        <span key={share}>{dayIn(at[Math.round(share * (count - 1))]!, zone, times)}</span>
      ))}
    </div>
  );
}
