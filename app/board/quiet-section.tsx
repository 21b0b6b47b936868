import { DrawnStrip } from "../fittings/drawn-strip";
import { Link } from "../fittings/link";
import { AtLeast } from "../fittings/num";
import { StateShape } from "../fittings/state-word";
import type { StripDrawing } from "../fittings/strip-drawing";
import { Table } from "../fittings/table";
import { type Turner, TurnerLinks } from "../fittings/turner-links";
import styles from "./board.module.css";
import { AgoTime, type ShownMoment } from "./shown-moment";

/** The quiet band ready to be shown. */
export type QuietView = { count: string; parts: QuietPart[] };

export type QuietPart = {
  id: number;
  title: string;
  name: string;
  count: string;
  caption: string;
  /** Where it is unfolded or folded; null where its features come along folded. */
  fold: { href: string; isOpen: boolean } | null;
  rows: QuietRow[];
  turner: Turner | null;
};

export type QuietRow = {
  id: number;
  name: string;
  strip: StripDrawing;
  reason: string;
  ppkAtLeast: number | null;
  at: ShownMoment | null;
};

export type QuietHeads = Record<"feature" | "strip" | "why" | "ppk" | "latest", string>;

/** The rest, folded to a count per part; each unfolds to its features. */
export function QuietSection({ view, title, heads }: { view: QuietView; title: string; heads: QuietHeads }) {
  return (
    <section className={`${styles.band} ${styles.quiet}`} aria-labelledby="band-quiet">
      <header className={styles.bandHead}>
        <h2 id="band-quiet">
          <StateShape tone="calm" /> {title}
        </h2>
        <p className={styles.count}>{view.count}</p>
      </header>
      {view.parts.map((part) =>
        part.fold ? (
          <LongPart key={part.id} part={part} fold={part.fold} heads={heads} />
        ) : (
          <details key={part.id} className={styles.fold}>
            <summary>
              <PartLine part={part} />
            </summary>
            <QuietTable part={part} heads={heads} />
          </details>
        ),
      )}
    </section>
  );
}

/** A part whose features come when they are asked for, a page at a time. */
function LongPart({
  part,
  fold,
  heads,
}: {
  part: QuietPart;
  fold: NonNullable<QuietPart["fold"]>;
  heads: QuietHeads;
}) {
  return (
    <div id={`quiet-${part.id}`} className={styles.fold}>
      <Link className={styles.foldLink} href={fold.href} aria-expanded={fold.isOpen}>
        <PartLine part={part} />
      </Link>
      {fold.isOpen ? (
        <>
          <QuietTable part={part} heads={heads} />
          <TurnerLinks turner={part.turner} />
        </>
      ) : null}
    </div>
  );
}

function PartLine({ part: { title, name, count } }: { part: QuietPart }) {
  return (
    <>
      <span className={styles.foldTitle}>{title}</span> <span className={styles.foldName}>{name}</span>{" "}
      <span>{count}</span>
    </>
  );
}

function QuietTable({ part: { caption, rows }, heads }: { part: QuietPart; heads: QuietHeads }) {
  return (
    <Table
      caption={caption}
      isCaptionShown={false}
      rows={rows}
      rowKey={({ id }) => id}
      columns={[
        {
          key: "feature",
          head: heads.feature,
          cell: ({ id, name }) => <Link href={`/features/${id}`}>{name}</Link>,
        },
        {
          key: "strip",
          head: heads.strip,
          width: "16rem",
          cell: ({ strip }) => <DrawnStrip drawing={strip} />,
        },
        { key: "why", head: heads.why, cell: ({ reason }) => reason },
        {
          key: "ppk",
          head: heads.ppk,
          figures: true,
          cell: ({ ppkAtLeast }) => <AtLeast value={ppkAtLeast} />,
        },
        {
          key: "latest",
          head: heads.latest,
          figures: true,
          cell: ({ at }) => <AgoTime at={at} />,
        },
      ]}
    />
  );
}
