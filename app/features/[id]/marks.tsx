import { memo } from "react";
import type { ChartView } from "../../../lib/chart/chart-view";
import { type Mark, markPath } from "../../../lib/chart/mark-path";
import styles from "./chart.module.css";
import type { ChartPlaces } from "./chart-places";
import type { SourceLooks } from "./source-looks";

type PlotName = "location" | "spread";
type Drawn = { className: string; fill?: string; path: string };

/**
 * The points of both charts. A filled disc is a point within its limits, a diamond one beyond, a hollow
 * disc one that was left out; with colours by source its shape tells the source, a diamond about it that
 * it is beyond. Marks of one look are one path, so that hundreds cost little.
 */
export const Marks = memo(function Marks({
  view,
  places,
  looks,
}: {
  view: ChartView;
  places: ChartPlaces;
  looks: SourceLooks | null;
}) {
  return (
    <g>
      {(["location", "spread"] as const).map((plot) => (
        <g key={plot}>
          {groups(view, { places, looks, plot }).map(({ className, fill, path }) => (
            <path
              key={`${className} ${fill}`}
              className={className}
              d={path}
              style={fill ? { fill } : undefined}
            />
          ))}
        </g>
      ))}
    </g>
  );
});

function groups(
  view: ChartView,
  { places, looks, plot }: { places: ChartPlaces; looks: SourceLooks | null; plot: PlotName },
): Drawn[] {
  const radius = Math.max(1.8, Math.min(4, places.step * 0.42));
  const byLook = new Map<string, Drawn>();
  const add = (className: string, fill: string | undefined, mark: Mark, at: [number, number], r: number) => {
    const key = `${className} ${fill}`;
    const drawn = byLook.get(key) ?? { className, ...(fill && { fill }), path: "" };
    drawn.path += markPath(mark, at[0], at[1], r);
    byLook.set(key, drawn);
  };

  for (const point of view.points) {
    const value = plot === "location" ? point.mean : point.spread;
    if (value === null) continue;
    const place: [number, number] = [places.x(point.number), places[plot](value)];
    const beyond = plot === "location" ? point.beyond : point.spreadBeyond;
    const member = plot === "location" ? point.member : point.spreadMember;
    if (point.excluded) add(styles.hollow!, undefined, "disc", place, radius);
    else if (looks) {
      const look = looks.of(point.sources[looks.kind]);
      if (beyond) add(styles.about!, undefined, "diamond", place, radius + 3.5);
      add(styles.coloured!, look.colour, look.mark, place, radius + 0.4);
    } else if (beyond) add(styles.beyond!, undefined, "diamond", place, Math.max(4, radius + 0.8));
    else add(member ? styles.member! : styles.within!, undefined, "disc", place, radius);
  }
  return [...byLook.values()];
}

/** One mark by itself, for a legend. */
export function MarkSample({ mark, className, fill }: { mark: Mark; className?: string; fill?: string }) {
  return (
    <svg width="16" height="16" viewBox="0 0 16 16" aria-hidden="true" focusable="false">
      <path className={className} d={markPath(mark, 8, 8, 4)} style={fill ? { fill } : undefined} />
    </svg>
  );
}
