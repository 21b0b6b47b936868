import type { FlagRow } from "../../db/queries/drift";
import { shownState } from "../../lib/alarms/alarm-state";
import type { GaugeDue } from "../../lib/board/gauges-due";
import { counted } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { AtLeast } from "../fittings/num";
import { StateShape, StateWord } from "../fittings/state-word";
import { ToleranceStrip } from "../fittings/tolerance-strip";
import { When } from "../fittings/when";
import styles from "./board.module.css";
import { FeatureName } from "./feature-name";
import { GaugesDue } from "./gauges-due";
import { MovingSource, SuspectLine } from "./moving-source";
import { OriginLine } from "./origin-line";
import type { PlacedFlags } from "./placed-flags";
import type { PlacedRow } from "./placed-rows";

const HEADS = {
  act: {
    tone: "act",
    title: "Act",
    words:
      "A person is needed now: these sources have moved, and these features have left their control limits, their pattern or their tolerance and have not come back.",
    none: "Nothing needs a person now.",
  },
  watch: {
    tone: "watch",
    title: "Watch",
    words: "Soon, not now: look at these when nothing stands above.",
    none: "Nothing to watch.",
  },
} as const;

/** More rows than anybody reads, and than a tablet draws at once; the most urgent stand first. */
const MOST_ROWS = 100;

/** One of the upper two bands, every feature with its reason; gauges that are due come after the features. */
export function BandSection({
  band,
  rows,
  gauges = [],
  flags,
  zone,
  now,
}: {
  band: "act" | "watch";
  rows: readonly PlacedRow[];
  gauges?: readonly GaugeDue[];
  flags: PlacedFlags;
  zone: string;
  now: number;
}) {
  const head = HEADS[band];
  const sources = flags.bands.get(band) ?? [];
  const isEmpty = rows.length === 0 && gauges.length === 0 && sources.length === 0;
  return (
    <section className={`${styles.band} ${styles[band]}`} aria-labelledby={`band-${band}`}>
      <header className={styles.bandHead}>
        <h2 id={`band-${band}`}>
          <StateShape tone={head.tone} /> {head.title}
        </h2>
        <p className={styles.count}>
          {isEmpty
            ? head.none
            : countWords({ sources: sources.length, features: rows.length, gauges: gauges.length })}
        </p>
        {isEmpty ? null : <p className={styles.meaning}>{head.words}</p>}
      </header>
      {isEmpty ? null : (
        <ul className={styles.rows}>
          {sources.map((flag) => (
            <MovingSource key={`source ${flag.id}`} flag={flag} zone={zone} now={now} />
          ))}
          {rows.slice(0, MOST_ROWS).map((row) => (
            <BandRow key={row.feature.id} row={row} suspects={flags.of(row.feature)} zone={zone} now={now} />
          ))}
          <GaugesDue gauges={gauges} />
        </ul>
      )}
      {rows.length > MOST_ROWS ? (
        <p className={styles.more}>
          {counted(rows.length - MOST_ROWS, "more feature")} not shown. Narrow the board to a line, a part or
          a source, or go through the <Link href="/alarms">alarms</Link>.
        </p>
      ) : null}
    </section>
  );
}

function countWords(counts: { sources: number; features: number; gauges: number }): string {
  const words = [
    ...(counts.sources > 0 ? [counted(counts.sources, "source")] : []),
    ...(counts.features > 0 ? [counted(counts.features, "feature")] : []),
    ...(counts.gauges > 0 ? [counted(counts.gauges, "gauge")] : []),
  ];
  return words.join(", ");
}

function BandRow({
  row,
  suspects,
  zone,
  now,
}: {
  row: PlacedRow;
  suspects: readonly FlagRow[];
  zone: string;
  now: number;
}) {
  const { feature, standing, alarm, placing } = row;
  return (
    <li className={styles.row}>
      <div>
        <FeatureName feature={feature} />
        {alarm && alarm.withdrawnAt === null ? (
          <p className={styles.state}>
            <Link href={`/alarms/${alarm.id}`} className={styles.toAlarm}>
              <StateWord state={shownState(alarm)} />
            </Link>
          </p>
        ) : null}
      </div>
      <ToleranceStrip feature={feature} standing={standing} />
      <div className={styles.why}>
        <p className={styles.reason}>{placing.reason}</p>
        {placing.also.map((words) => (
          <p key={words} className={styles.also}>
            {words}
          </p>
        ))}
        <SuspectLine flags={suspects} />
        <OriginLine row={row} />
      </div>
      <dl className={styles.figures}>
        <div>
          <dt>Ppk at least</dt>
          <dd>
            <AtLeast value={standing?.ppkAtLeast} />
          </dd>
        </div>
        <div>
          <dt>{placing.since === null ? "measured" : "since"}</dt>
          <dd>
            <When at={placing.since ?? standing?.lastAt} zone={zone} as="ago" now={now} />
          </dd>
        </div>
      </dl>
    </li>
  );
}
