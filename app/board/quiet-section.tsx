import { use } from "react";
import type { BoardRow } from "../../db/queries/board";
import { partName } from "../../lib/format/names";
import { paged } from "../../lib/format/paged";
import { Link } from "../fittings/link";
import { AtLeast } from "../fittings/num";
import { PageTurner } from "../fittings/page-turner";
import { StateShape } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { ToleranceStrip } from "../fittings/tolerance-strip";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./board.module.css";
import type { BoardPlace } from "./board-filter";
import { withReasons } from "./placed-rows";

/** Lines of a table, of which two go into the height of a row above. */
const ROWS_ON_A_PAGE = 50;

/**
 * The rest, folded to a count per part; each unfolds to its features. So many come along folded; where there are more,
 * a part is a link that unfolds it, for nobody should wait for two thousand rows that are not even seen.
 */
export function QuietSection({
  rows,
  place,
  toPlace,
  zone,
  now,
}: {
  rows: readonly BoardRow[];
  place: BoardPlace;
  toPlace: (place: Partial<BoardPlace>) => string;
  zone: string;
  now: number;
}) {
  const { quiet } = use(words()).board;
  const parts = byPart(rows);
  return (
    <section className={`${styles.band} ${styles.quiet}`} aria-labelledby="band-quiet">
      <header className={styles.bandHead}>
        <h2 id="band-quiet">
          <StateShape tone="calm" /> {quiet.title}
        </h2>
        <p className={styles.count}>
          {rows.length === 0 ? quiet.none : quiet.count(rows.length, parts.length)}
        </p>
      </header>
      {parts.map((part) =>
        rows.length > ROWS_ON_A_PAGE ? (
          <LongPart
            key={part.id}
            part={part}
            isOpen={part.id === place.quiet}
            page={place.rest}
            toPlace={toPlace}
            zone={zone}
            now={now}
          />
        ) : (
          <details key={part.id} className={styles.fold}>
            <summary>
              <PartLine part={part} />
            </summary>
            <QuietTable caption={quiet.of(part.title)} rows={part.members} zone={zone} now={now} />
          </details>
        ),
      )}
    </section>
  );
}

/** A part whose features come when they are asked for, a page at a time. */
function LongPart({
  part,
  isOpen,
  page,
  toPlace,
  zone,
  now,
}: {
  part: QuietPart;
  isOpen: boolean;
  page: number;
  toPlace: (place: Partial<BoardPlace>) => string;
  zone: string;
  now: number;
}) {
  const { quiet, turning } = use(words()).board;
  const anchor = `quiet-${part.id}`;
  const shown = paged(part.members, { page, size: ROWS_ON_A_PAGE });
  return (
    <div id={anchor} className={styles.fold}>
      <Link
        className={styles.foldLink}
        href={`${toPlace({ quiet: isOpen ? null : part.id, rest: 1 })}#${anchor}`}
        aria-expanded={isOpen}
      >
        <PartLine part={part} />
      </Link>
      {isOpen ? (
        <>
          <QuietTable caption={quiet.of(part.title)} rows={shown.rows} zone={zone} now={now} />
          <PageTurner
            label={turning.of(part.title)}
            shown={shown}
            toPage={(rest) => `${toPlace({ quiet: part.id, rest })}#${anchor}`}
          />
        </>
      ) : null}
    </div>
  );
}

function PartLine({ part: { title, name, members } }: { part: QuietPart }) {
  const { quiet } = use(words()).board;
  return (
    <>
      <span className={styles.foldTitle}>{title}</span> <span className={styles.foldName}>{name}</span>{" "}
      <span>{quiet.features(members.length)}</span>
    </>
  );
}

function QuietTable({
  caption,
  rows,
  zone,
  now,
}: {
  caption: string;
  rows: readonly BoardRow[];
  zone: string;
  now: number;
}) {
  const said = use(words());
  const { heads } = said.board.quiet;
  return (
    <Table
      caption={caption}
      isCaptionShown={false}
      rows={withReasons(rows, now, said)}
      rowKey={({ feature }) => feature.id}
      columns={[
        {
          key: "feature",
          head: heads.feature,
          cell: ({ feature }) => <Link href={`/features/${feature.id}`}>{feature.name}</Link>,
        },
        {
          key: "strip",
          head: heads.strip,
          width: "16rem",
          cell: ({ feature, standing }) => <ToleranceStrip feature={feature} standing={standing} />,
        },
        { key: "why", head: heads.why, cell: ({ placing }) => placing.reason },
        {
          key: "ppk",
          head: heads.ppk,
          figures: true,
          cell: ({ standing }) => <AtLeast value={standing?.ppkAtLeast} />,
        },
        {
          key: "latest",
          head: heads.latest,
          figures: true,
          cell: ({ standing }) => <When at={standing?.lastAt} zone={zone} as="ago" now={now} />,
        },
      ]}
    />
  );
}

type QuietPart = { id: number; title: string; name: string; members: BoardRow[] };

function byPart(rows: readonly BoardRow[]): QuietPart[] {
  const parts = new Map<number, QuietPart>();
  for (const row of rows) {
    const { partId: id, part } = row.feature;
    const found = parts.get(id);
    if (found) found.members.push(row);
    else parts.set(id, { id, title: partName(part), name: part.name, members: [row] });
  }
  return [...parts.values()].sort((a, b) => a.title.localeCompare(b.title, "en", { numeric: true }));
}
