import { use } from "react";
import type { AnsweredFlag, FlagRow } from "../../db/queries/drift";
import type { PartRow } from "../../db/queries/features";
import type { SourceEventRow } from "../../db/queries/sources";
import { sourceKey } from "../../lib/drift/measured-part";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { partName } from "../../lib/format/names";
import { LinkTabs } from "../fittings/controls";
import { Link } from "../fittings/link";
import { Section } from "../fittings/page-frame";
import { words } from "../language/language";
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
  answered,
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
  answered: readonly AnsweredFlag[];
  zone: string;
  address: (query: DriftQuery) => string;
}) {
  const { driftPage, times, trade } = use(words());
  const { grid: said } = driftPage;
  const lots = scan.partLots.find((one) => one.part === partName(part))?.lots ?? [];
  const asked = to === null ? -1 : lots.indexOf(to);
  const end = asked < 0 ? lots.length : asked + 1;
  const begin = Math.max(0, end - LOTS_SHOWN);
  const view = gridView(scan, {
    lots: lots.slice(begin, end),
    zone,
    events,
    flags,
    answered,
    words: { said, times, trade },
  });
  const source = chosen === null ? null : sourceKey(chosen.source);
  return (
    <Section title={said.title} id="grid" purpose={said.purpose}>
      <div className={styles.gridChoices}>
        <LinkTabs
          label={said.part}
          links={parts.map((one) => ({
            href: `${address({ part: one.id, to: null })}#grid`,
            label: partName(one),
            isCurrent: one.id === part.id,
          }))}
        />
        <nav aria-label={said.lots} className={styles.earlier}>
          {begin > 0 ? <Link href={`${address({ to: lots[begin - 1]! })}#grid`}>{said.earlier}</Link> : null}
          {end < lots.length ? <Link href={`${address({ to: null })}#grid`}>{said.latest}</Link> : null}
        </nav>
      </div>
      {view.afresh.map((sentence) => (
        <p key={sentence} className={styles.remark}>
          {sentence}
        </p>
      ))}
      <GridLegend />
      <SourceGrid
        view={view}
        chosen={source}
        words={{ ...said.walk, title: said.title }}
        key={`${part.id} ${begin} ${end} ${source}`}
      />
      <details className={styles.fold}>
        <summary>{said.asTable}</summary>
        <GridFigures view={view} />
      </details>
    </Section>
  );
}
