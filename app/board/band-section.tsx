import { use } from "react";
import type { AnsweredFlag, FlagRow } from "../../db/queries/drift";
import { shownState } from "../../lib/alarms/alarm-state";
import type { GaugeDue } from "../../lib/board/gauges-due";
import { pieces } from "../../lib/words/fill";
import { Link } from "../fittings/link";
import { AtLeast } from "../fittings/num";
import { StateShape, StateWord } from "../fittings/state-word";
import { ToleranceStrip } from "../fittings/tolerance-strip";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./board.module.css";
import { FeatureName } from "./feature-name";
import { GaugesDue } from "./gauges-due";
import { AnsweredLine, MovingSource, SuspectLine } from "./moving-source";
import { OriginLine } from "./origin-line";
import type { PlacedFlags } from "./placed-flags";
import type { PlacedRow } from "./placed-rows";

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
  const { board } = use(words());
  const head = board.bands[band];
  const sources = flags.bands.get(band) ?? [];
  const isEmpty = rows.length === 0 && gauges.length === 0 && sources.length === 0;
  return (
    <section className={`${styles.band} ${styles[band]}`} aria-labelledby={`band-${band}`}>
      <header className={styles.bandHead}>
        <h2 id={`band-${band}`}>
          <StateShape tone={band} /> {head.title}
        </h2>
        <p className={styles.count}>
          {isEmpty
            ? head.none
            : board.counts({ sources: sources.length, features: rows.length, gauges: gauges.length })}
        </p>
        {isEmpty ? null : <p className={styles.meaning}>{head.words}</p>}
      </header>
      {isEmpty ? null : (
        <ul className={styles.rows}>
          {sources.map((flag) => (
            <MovingSource key={`source ${flag.id}`} flag={flag} zone={zone} now={now} />
          ))}
          {rows.slice(0, MOST_ROWS).map((row) => (
            <BandRow
              key={row.feature.id}
              row={row}
              suspects={flags.of(row.feature)}
              answered={flags.answeredFor(row)}
              zone={zone}
              now={now}
            />
          ))}
          <GaugesDue gauges={gauges} />
        </ul>
      )}
      {rows.length > MOST_ROWS ? (
        <p className={styles.more}>
          {pieces(board.more(rows.length - MOST_ROWS)).map((piece) =>
            piece === "alarms" ? (
              <Link key={piece} href="/alarms">
                {board.alarms}
              </Link>
            ) : (
              piece
            ),
          )}
        </p>
      ) : null}
    </section>
  );
}

function BandRow({
  row,
  suspects,
  answered,
  zone,
  now,
}: {
  row: PlacedRow;
  suspects: readonly FlagRow[];
  answered: readonly AnsweredFlag[];
  zone: string;
  now: number;
}) {
  const { board } = use(words());
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
        {placing.also.map((reason) => (
          <p key={reason} className={styles.also}>
            {reason}
          </p>
        ))}
        <SuspectLine flags={suspects} />
        <AnsweredLine flags={answered} zone={zone} />
        <OriginLine row={row} />
      </div>
      <dl className={styles.figures}>
        <div>
          <dt>{board.ppkAtLeast}</dt>
          <dd>
            <AtLeast value={standing?.ppkAtLeast} />
          </dd>
        </div>
        <div>
          <dt>{placing.since === null ? board.measured : board.since}</dt>
          <dd>
            <When at={placing.since ?? standing?.lastAt} zone={zone} as="ago" now={now} />
          </dd>
        </div>
      </dl>
    </li>
  );
}
