import type { FlagRow } from "../../db/queries/drift";
import type { PartRow } from "../../db/queries/features";
import type { SourceEventRow } from "../../db/queries/sources";
import { sourceKey } from "../../lib/drift/measured-part";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { partName } from "../../lib/format/names";
import { LinkTabs } from "../fittings/controls";
import { Link } from "../fittings/link";
import { Section } from "../fittings/page-frame";
import styles from "./drift.module.css";
import { GridFigures } from "./grid-figures";
import { GridLegend } from "./grid-legend";
import { gridView } from "./grid-view";
import { SourceGrid } from "./source-grid";

/** Lots in the grid at a time. */
export const LOTS_SHOWN = 40;

/** What a link of this page changes in its address; null takes it out. */
export type DriftQuery = Record<string, string | number | null>;

/** The grid of sources and lots of one part. */
export function GridSection({
  scan,
  part,
  parts,
  chosen,
  to,
  events,
  flags,
  zone,
  address,
}: {
  scan: StoredScan;
  part: PartRow;
  /** Parts with lots in the scan. */
  parts: readonly PartRow[];
  chosen: FlagRow | null;
  /** Code of the last lot shown; null for the latest. */
  to: string | null;
  events: readonly SourceEventRow[];
  flags: readonly FlagRow[];
  zone: string;
  address: (query: DriftQuery) => string;
}) {
  const lots = scan.partLots.find((one) => one.part === partName(part))?.lots ?? [];
  const asked = to === null ? -1 : lots.indexOf(to);
  const end = asked < 0 ? lots.length : asked + 1;
  const begin = Math.max(0, end - LOTS_SHOWN);
  const view = gridView(scan, { lots: lots.slice(begin, end), zone, events, flags });
  const source = chosen === null ? null : sourceKey(chosen.source);
  return (
    <Section
      title="Sources by lots"
      id="grid"
      purpose="How far each source lay from the rest of the same lot, in sigma, averaged over its features; what has always been different is taken off."
    >
      <div className={styles.gridChoices}>
        <LinkTabs
          label="Part in the grid"
          links={parts.map((one) => ({
            href: `${address({ part: one.id, to: null })}#grid`,
            label: partName(one),
            isCurrent: one.id === part.id,
          }))}
        />
        <nav aria-label="Lots shown" className={styles.earlier}>
          {begin > 0 ? <Link href={`${address({ to: lots[begin - 1]! })}#grid`}>Earlier lots</Link> : null}
          {end < lots.length ? <Link href={`${address({ to: null })}#grid`}>Latest lots</Link> : null}
        </nav>
      </div>
      <GridLegend />
      <SourceGrid view={view} chosen={source} key={`${part.id} ${begin} ${end} ${source}`} />
      <details className={styles.fold}>
        <summary>The same as a table of figures</summary>
        <GridFigures view={view} />
      </details>
    </Section>
  );
}
