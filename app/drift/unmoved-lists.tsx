import { counted } from "../../lib/format/numbers";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import { COMPARABLE, unmovedWords } from "../../lib/sources/change-words";
import type { SourceChange } from "../../lib/sources/recent-change";
import { Link } from "../fittings/link";
import styles from "./drift.module.css";
import type { DriftNames } from "./drift-names";

export type Unmoved = { kind: SourceKind; one: SourceChange };

/** Sources without a change, folded: those that were compared, and those that could not be. */
export function UnmovedLists({
  unmoved,
  names,
  dayOf,
  hrefOf,
}: {
  unmoved: readonly Unmoved[];
  names: DriftNames;
  dayOf: (at: number) => string;
  hrefOf: (source: number) => string;
}) {
  const quiet = unmoved.filter(({ one }) => one.state === "quiet" || one.state === "too-few");
  const alone = unmoved.filter(({ one }) => one.state === "alone");
  const list = (all: readonly Unmoved[]) => (
    <ul className={styles.unmoved}>
      {all.map(({ kind, one }) => (
        <li key={one.source}>
          <Link href={hrefOf(one.source)}>
            <span className={styles.soft}>{kind}</span> {names.source(one.source)}
          </Link>
          <p>
            {unmovedWords(one, {
              kind,
              since: one.historyFrom === null ? null : `the event of ${dayOf(one.historyFrom)}`,
            })}
          </p>
        </li>
      ))}
    </ul>
  );
  return (
    <div className={styles.folds}>
      {quiet.length > 0 ? (
        <details>
          <summary>
            <span className={styles.foldTitle}>{counted(quiet.length, "source")} without a change</span>
            <span className={styles.soft}>compared within lots; what a change would have had to be</span>
          </summary>
          {list(quiet)}
        </details>
      ) : null}
      {alone.length > 0 ? (
        <details>
          <summary>
            <span className={styles.foldTitle}>
              {counted(alone.length, "source")} that cannot be compared
            </span>
            <span className={styles.soft}>{kindsIn(alone)}: always alone in their lots</span>
          </summary>
          <AloneList {...{ alone, names, dayOf, hrefOf }} />
        </details>
      ) : null}
    </div>
  );
}

/** One entry for each kind: they all lack the same. */
function AloneList({
  alone,
  names,
  dayOf,
  hrefOf,
}: {
  alone: readonly Unmoved[];
  names: DriftNames;
  dayOf: (at: number) => string;
  hrefOf: (source: number) => string;
}) {
  return (
    <ul className={styles.unmoved}>
      {SOURCE_KINDS.map((kind) => {
        const ofKind = alone.filter((one) => one.kind === kind);
        if (ofKind.length === 0) return null;
        return (
          <li key={kind}>
            <span className={styles.aloneKind}>{kindsIn(ofKind)}</span>
            <div>
              <p>
                {ofKind.length === 1 ? "It" : "Each"} ran alone in its lots, so it and the lots cannot be told
                apart. {COMPARABLE[kind]}
              </p>
              <ul className={styles.aloneSources}>
                {ofKind.map(({ one }) => (
                  <li key={one.source}>
                    <Link href={hrefOf(one.source)}>{names.source(one.source)}</Link>{" "}
                    <span className={styles.soft}>
                      {counted(one.lots, "lot")}
                      {one.historyFrom === null ? "" : ` since ${dayOf(one.historyFrom)}`}
                    </span>
                  </li>
                ))}
              </ul>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

/** "4 tools, 1 machine". */
function kindsIn(all: readonly Unmoved[]): string {
  return SOURCE_KINDS.flatMap((kind) => {
    const count = all.filter((one) => one.kind === kind).length;
    return count === 0 ? [] : [counted(count, kind)];
  }).join(", ");
}
