import type { ChartView } from "../../../lib/chart/chart-view";
import { SOURCE_MARKS, type SourceMark } from "../../../lib/chart/mark-path";
import { MIXED, type RibbonKind } from "../../../lib/chart/ribbons";

export type Look = { colour: string; mark: SourceMark };

/** How each source of one kind is drawn; the eighth and later share the last look. */
export type SourceLooks = {
  kind: RibbonKind;
  of: (id: number) => Look;
  /** In the order of the legend: most common first. */
  listed: { id: number; name: string; look: Look; subgroups: number }[];
  others: number;
};

const OTHER: Look = { colour: "var(--calm)", mark: "bar" };

/** Colours and shapes for the sources of a kind, the most common of the window first. */
export function sourceLooks(view: ChartView, kind: RibbonKind): SourceLooks {
  const counts = new Map<number, number>();
  for (const { sources } of view.points) {
    const id = sources[kind];
    if (id !== 0 && id !== MIXED) counts.set(id, (counts.get(id) ?? 0) + 1);
  }
  const named = (id: number) => view.names[kind][id] ?? `#${id}`;
  // By name, so that FX-1 keeps its look while windows change; by weight only to choose which get one.
  const chosen = [...counts]
    .sort((a, b) => b[1] - a[1])
    .slice(0, SOURCE_MARKS.length - 1)
    .sort((a, b) => named(a[0]).localeCompare(named(b[0]), "en", { numeric: true }));
  const looks = new Map(
    chosen.map(([id], i): [number, Look] => [
      id,
      { colour: `var(--series-${i + 1})`, mark: SOURCE_MARKS[i] as SourceMark },
    ]),
  );
  return {
    kind,
    of: (id) => looks.get(id) ?? OTHER,
    listed: chosen.map(([id, subgroups]) => ({
      id,
      name: named(id),
      look: looks.get(id) ?? OTHER,
      subgroups,
    })),
    others: counts.size - chosen.length,
  };
}
