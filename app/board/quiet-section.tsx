import { partName } from "../../lib/format/names";
import { counted } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { AtLeast } from "../fittings/num";
import { StateShape } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { ToleranceStrip } from "../fittings/tolerance-strip";
import { When } from "../fittings/when";
import styles from "./board.module.css";
import type { PlacedRow } from "./placed-rows";

/** With more quiet features than this, each part leads to a board of its own instead of unfolding. */
const MOST_ROWS = 300;

/** The rest, folded to a count per part; each unfolds to its features. */
export function QuietSection({ rows, zone, now }: { rows: readonly PlacedRow[]; zone: string; now: number }) {
  const parts = byPart(rows);
  return (
    <section className={`${styles.band} ${styles.quiet}`} aria-labelledby="band-quiet">
      <header className={styles.bandHead}>
        <h2 id="band-quiet">
          <StateShape tone="calm" /> Quiet
        </h2>
        <p className={styles.count}>
          {rows.length === 0
            ? "No feature is quiet."
            : `${counted(rows.length, "feature")} of ${counted(parts.length, "part")}`}
        </p>
      </header>
      {parts.map(({ title, number, name, members }) =>
        rows.length > MOST_ROWS && parts.length > 1 ? (
          <Link key={title} className={styles.fold} href={`/?part=${encodeURIComponent(number)}`}>
            <span className={styles.foldTitle}>{title}</span> <span className={styles.foldName}>{name}</span>{" "}
            <span>{counted(members.length, "quiet feature")}</span>
          </Link>
        ) : (
          <details key={title} className={styles.fold}>
            <summary>
              <span className={styles.foldTitle}>{title}</span>{" "}
              <span className={styles.foldName}>{name}</span>{" "}
              <span>{counted(members.length, "quiet feature")}</span>
            </summary>
            <QuietTable
              caption={`Quiet features of ${title}`}
              rows={members.slice(0, MOST_ROWS)}
              zone={zone}
              now={now}
            />
            {members.length > MOST_ROWS ? (
              <p className={styles.more}>
                {counted(members.length - MOST_ROWS, "more quiet feature")} not shown; all are on the{" "}
                <Link href="/features">list of features</Link>.
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
  return (
    <Table
      caption={caption}
      isCaptionShown={false}
      rows={rows}
      rowKey={({ feature }) => feature.id}
      columns={[
        {
          key: "feature",
          head: "Feature",
          cell: ({ feature }) => <Link href={`/features/${feature.id}`}>{feature.name}</Link>,
        },
        {
          key: "strip",
          head: "Latest means within the tolerance",
          width: "16rem",
          cell: ({ feature, standing }) => <ToleranceStrip feature={feature} standing={standing} />,
        },
        { key: "why", head: "State", cell: ({ placing }) => placing.reason },
        {
          key: "ppk",
          head: "Ppk at least",
          figures: true,
          cell: ({ standing }) => <AtLeast value={standing?.ppkAtLeast} />,
        },
        {
          key: "latest",
          head: "Measured",
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
