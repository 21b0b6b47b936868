import type { SourceEventRow } from "../../db/queries/sources";
import { counted } from "../../lib/format/numbers";
import { LinkTabs } from "../fittings/controls";
import { Link } from "../fittings/link";
import { Section } from "../fittings/page-frame";
import styles from "./drift.module.css";
import type { DriftNames } from "./drift-names";
import { GridFigures } from "./grid-figures";
import { GridLegend } from "./grid-legend";
import { gridView } from "./grid-view";
import type { KindDrift, Moved } from "./part-drift";
import { SourceGrid } from "./source-grid";

/** Lots in the grid at a time. */
export const LOTS_SHOWN = 40;

/** What a link of this page changes in its address; null takes it out. */
export type DriftQuery = Record<string, string | number | null>;

/** The grid of sources and lots, over all features or over those that moved with the chosen source. */
export function GridSection({
  kinds,
  chosen,
  evidence,
  overMoved,
  to,
  names,
  events,
  zone,
  address,
}: {
  kinds: readonly KindDrift[];
  chosen: number | null;
  evidence: Moved | null;
  overMoved: boolean;
  /** Id of the last lot shown; null for the latest. */
  to: number | null;
  names: DriftNames;
  events: readonly SourceEventRow[];
  zone: string;
  address: (query: DriftQuery) => string;
}) {
  const lots = kinds[0]?.changes.lots ?? [];
  const asked = to === null ? -1 : lots.indexOf(to);
  const end = asked < 0 ? lots.length : asked + 1;
  const begin = Math.max(0, end - LOTS_SHOWN);
  const moved = new Set(evidence?.change.features.filter((one) => one.moved).map(({ feature }) => feature));
  const isNarrowed = overMoved && moved.size > 0;
  const shown = isNarrowed
    ? kinds.map((one) => ({ ...one, rows: one.rows.filter(({ feature }) => moved.has(feature)) }))
    : kinds;
  const view = gridView(shown, { from: begin, to: end, zone, names, events });
  const over = isNarrowed
    ? `the ${counted(moved.size, "feature")} that moved with ${evidence ? names.source(evidence.source) : ""}`
    : "all features of the part";
  return (
    <Section
      title="Sources by lots"
      id="grid"
      purpose={`How far each source lay from the others in the same lot, in sigma, averaged over ${over}.`}
    >
      <div className={styles.gridChoices}>
        {moved.size > 0 ? (
          <LinkTabs
            label="Features in the grid"
            links={[
              { href: `${address({ over: null })}#grid`, label: "All features", isCurrent: !isNarrowed },
              {
                href: `${address({ over: "moved" })}#grid`,
                label: `The ${moved.size} that moved`,
                isCurrent: isNarrowed,
              },
            ]}
          />
        ) : null}
        <nav aria-label="Lots shown" className={styles.earlier}>
          {begin > 0 ? <Link href={`${address({ to: lots[begin - 1]! })}#grid`}>Earlier lots</Link> : null}
          {end < lots.length ? <Link href={`${address({ to: null })}#grid`}>Latest lots</Link> : null}
        </nav>
      </div>
      <GridLegend />
      <SourceGrid
        view={view}
        chosen={chosen}
        key={`${begin} ${end} ${chosen} ${kinds.length} ${isNarrowed}`}
      />
      {evidence && evidence.change.neighbours.length > 0 && end === lots.length ? (
        <p className={styles.remark}>
          {beside(evidence, names)} in the grid since {names.lot(evidence.change.since)}, because what they
          are compared with has moved; their own readings stand under the evidence above.
        </p>
      ) : null}
      {view.groups.some(({ isCompared }) => isCompared) ? (
        <details className={styles.fold}>
          <summary>The same as a table of figures</summary>
          <GridFigures view={view} />
        </details>
      ) : null}
    </Section>
  );
}

/** "FX-1 and FX-3 lie the other way". */
function beside({ change }: Moved, names: DriftNames): string {
  const codes = [...new Set(change.neighbours.map(({ source }) => names.source(source)))].sort();
  return `${codes.join(" and ")} ${codes.length === 1 ? "lies" : "lie"} the other way`;
}
