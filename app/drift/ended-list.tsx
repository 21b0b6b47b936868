import type { FlagRow } from "../../db/queries/drift";
import { datedSentence } from "../../lib/drift/flag-words";
import { nameOf } from "../../lib/drift/sentence";
import { counted } from "../../lib/format/numbers";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import styles from "./drift.module.css";
import type { ScanNames } from "./scan-names";

/** Flags that are over, and why. */
export function EndedList({
  ended,
  names,
  zone,
}: {
  ended: readonly FlagRow[];
  names: ScanNames;
  zone: string;
}) {
  if (ended.length === 0) return null;
  return (
    <div className={styles.folds}>
      <details open={ended.some(({ state }) => state === "answered")}>
        <summary>
          <span className={styles.foldTitle}>{counted(ended.length, "flag")} that ended</span>
          <span className={styles.soft}>by an event, by a person, or because the evidence is gone</span>
        </summary>
        <ul className={styles.plainList}>
          {ended.map((flag) => (
            <li key={flag.id}>
              <StateWord state="done">{nameOf(flag.source)}</StateWord>{" "}
              {flag.endedAt === null ? null : <When at={flag.endedAt} zone={zone} />}: {endedWords(flag)}{" "}
              <span className={styles.soft}>
                It had read: {datedSentence(flag.latest, names.dayOf(flag.latest.onset.at))}
              </span>
            </li>
          ))}
        </ul>
      </details>
    </div>
  );
}

function endedWords({ state, remark, by, latest }: FlagRow): string {
  switch (state) {
    case "answered":
      return `ended by an event; it is judged afresh from then on, and what it did since ${latest.onset.from} is set aside.`;
    case "closed":
      return `closed${by === null ? "" : ` by ${by}`}: ${remark} It stays closed while the same change is found.`;
    default:
      return "three scans in a row had too little evidence for it.";
  }
}
