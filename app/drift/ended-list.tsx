import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import { datedSentence } from "../../lib/drift/flag-words";
import { nameOf } from "../../lib/drift/sentence";
import type { Words } from "../../lib/words/words";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import { words } from "../language/language";
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
  const { driftPage, drift } = use(words());
  const said = driftPage.ended;
  if (ended.length === 0) return null;
  return (
    <div className={styles.folds}>
      <details open={ended.some(({ state }) => state === "answered")}>
        <summary>
          <span className={styles.foldTitle}>{said.title(ended.length)}</span>
          <span className={styles.soft}>{said.how}</span>
        </summary>
        <ul className={styles.plainList}>
          {ended.map((flag) => (
            <li key={flag.id}>
              <StateWord state="done">{nameOf(flag.source, drift)}</StateWord>{" "}
              {flag.endedAt === null ? null : <When at={flag.endedAt} zone={zone} />}:{" "}
              {endedWords(flag, said)}{" "}
              <span className={styles.soft}>
                {said.read(datedSentence(flag.latest, names.dayOf(flag.latest.onset.at), { drift }))}
              </span>
            </li>
          ))}
        </ul>
      </details>
    </div>
  );
}

function endedWords({ state, remark, by, latest }: FlagRow, said: Words["driftPage"]["ended"]): string {
  switch (state) {
    case "answered":
      return said.answered(latest.onset.lot, latest.onset.from);
    case "closed":
      return said.closed(by, remark);
    default:
      return said.faint;
  }
}
