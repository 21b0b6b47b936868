import type { SourceEventRow } from "../../db/queries/sources";
import { fixed } from "../../lib/format/numbers";
import { movedWords, rivalWords } from "../../lib/sources/change-words";
import { Link } from "../fittings/link";
import { StateShape } from "../fittings/state-word";
import { When } from "../fittings/when";
import styles from "./drift.module.css";
import type { DriftNames } from "./drift-names";
import type { Moved } from "./part-drift";

/** The sources that moved, the clearest first, with one sentence each. */
export function MovedList({
  moved,
  names,
  zone,
  hrefOf,
  chosen,
}: {
  moved: readonly Moved[];
  names: DriftNames;
  zone: string;
  hrefOf: (source: number) => string;
  chosen: number | null;
}) {
  return (
    <ol className={styles.moved}>
      {moved.map(({ kind, source, change }) => (
        <li key={source} className={styles.movedRow}>
          <div className={styles.movedHead}>
            <StateShape tone="act" />
            <span className={styles.movedKind}>{kind}</span>
            <Link
              href={hrefOf(source)}
              className={styles.movedCode}
              aria-current={source === chosen ? "true" : undefined}
            >
              {names.source(source)}
            </Link>
          </div>
          <div className={styles.movedWords}>
            <p className={styles.sentence}>{movedWords(source, change, names)}</p>
            {change.rivals.length > 0 ? (
              <p className={styles.remark}>{rivalWords(change.rivals.map(names.source), kind)}</p>
            ) : null}
            <p className={styles.remark}>
              First seen in {names.lot(change.since)}, begun <When at={change.sinceAt} zone={zone} />; the
              last lot without it is {names.lot(change.lastBefore)}.
            </p>
          </div>
          <dl className={styles.figures}>
            <div>
              <dt>change</dt>
              <dd>
                {fixed(change.difference, 1, { signed: true })} ± {fixed(change.standardError, 1)} sigma
              </dd>
            </div>
            <div>
              <dt>features</dt>
              <dd>
                {change.agree} of {change.features.length}
              </dd>
            </div>
            <div>
              <dt>lots since</dt>
              <dd>{change.lotsAfter}</dd>
            </div>
          </dl>
        </li>
      ))}
    </ol>
  );
}

/** What a logged event has ended: changes before it are over, and said once more. */
export function endedWords(
  { source, change, until }: { source: number; change: Moved["change"]; until: number },
  {
    names,
    events,
    dayOf,
  }: { names: DriftNames; events: readonly SourceEventRow[]; dayOf: (at: number) => string },
): string {
  const event = events.find((one) => one.sourceId === source && one.at === until);
  const by = event ? `${event.event} on ${dayOf(until)}` : dayOf(until);
  return (
    `Ended by an event: ${names.source(source)} had moved by ${fixed(change.difference, 1, { signed: true })} sigma ` +
    `since ${names.lot(change.since)} on ${change.agree} features, until it was ${by}.`
  );
}
