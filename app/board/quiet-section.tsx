import { use } from "react";
import { partName } from "../../lib/format/names";
import { pieces } from "../../lib/words/fill";
import { Link } from "../fittings/link";
import { AtLeast } from "../fittings/num";
import { StateShape } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { ToleranceStrip } from "../fittings/tolerance-strip";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./board.module.css";
import type { PlacedRow } from "./placed-rows";

/** With more quiet features than this, each part leads to a board of its own instead of unfolding. */
const MOST_ROWS = 300;

/** The rest, folded to a count per part; each unfolds to its features. */
export function QuietSection({ rows, zone, now }: { rows: readonly PlacedRow[]; zone: string; now: number }) {
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
      {parts.map(({ title, number, name, members }) =>
        rows.length > MOST_ROWS && parts.length > 1 ? (
          <Link key={title} className={styles.fold} href={`/?part=${encodeURIComponent(number)}`}>
            <span className={styles.foldTitle}>{title}</span> <span className={styles.foldName}>{name}</span>{" "}
            <span>{quiet.features(members.length)}</span>
          </Link>
        ) : (
          <details key={title} className={styles.fold}>
            <summary>
              <span className={styles.foldTitle}>{title}</span>{" "}
              <span className={styles.foldName}>{name}</span> <span>{quiet.features(members.length)}</span>
            </summary>
            <QuietTable caption={quiet.of(title)} rows={members.slice(0, MOST_ROWS)} zone={zone} now={now} />
            {members.length > MOST_ROWS ? (
              <p className={styles.more}>
                {pieces(quiet.more(members.length - MOST_ROWS)).map((piece) =>
                  piece === "list" ? (
                    <Link key={piece} href="/features">
                      {quiet.list}
                    </Link>
                  ) : (
                    piece
                  ),
                )}
              </p>
            ) : null}
          </details>
        ),
      )}
    </section>
  );
}

function QuietTable({
  caption,
  rows,
  zone,
  now,
}: {
  caption: string;
  rows: readonly PlacedRow[];
  zone: string;
  now: number;
}) {
  const { heads } = use(words()).board.quiet;
  return (
    <Table
      caption={caption}
      isCaptionShown={false}
      rows={rows}
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

type QuietPart = { title: string; number: string; name: string; members: PlacedRow[] };

function byPart(rows: readonly PlacedRow[]): QuietPart[] {
  const parts = new Map<number, QuietPart>();
  for (const row of rows) {
    const { partId, part } = row.feature;
    const found = parts.get(partId);
    if (found) found.members.push(row);
    else parts.set(partId, { title: partName(part), number: part.number, name: part.name, members: [row] });
  }
  return [...parts.values()].sort((a, b) => a.title.localeCompare(b.title, "en", { numeric: true }));
}
