"use client";

import { useEffect, useSyncExternalStore } from "react";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import type { LineState } from "../news/line";
import { lineOfThisTab } from "../news/this-tab";
import styles from "./connection.module.css";

/** A short break, as when the server starts anew, is not worth a word. */
const OPENING: LineState = { is: "opening", since: 0 };

/** Opens this tab's line to the server, and says at the foot of the window when it is gone. */
export function Connection({ after, words }: { after: number; words: Words["frame"]["connection"] }) {
  useEffect(() => lineOfThisTab().begin(after), [after]);
  const state = useLine();
  return (
    <div role="status" className={styles.place}>
      {state.is === "gone" ? (
        <p className={styles.note}>
          <Sign /> {fill(words.gone, { time: clockTime(state.since) })}
        </p>
      ) : null}
      {state.is === "signed-out" ? (
        <p className={styles.note}>
          <Sign /> {words.signedOut} <a href="/sign-in">{words.signInAgain}</a>
        </p>
      ) : null}
    </div>
  );
}

export function useLine(): LineState {
  return useSyncExternalStore(
    (changed) => lineOfThisTab().watch(changed),
    () => lineOfThisTab().state(),
    () => OPENING,
  );
}

function Sign() {
  return (
    <svg className={styles.sign} viewBox="0 0 20 20" aria-hidden="true" focusable="false">
      <path d="M3 10h4 M13 10h4 M8.5 6.5l3 7" />
    </svg>
  );
}

/** In the clock of the person's own device, which is what hangs beside them. */
function clockTime(at: number): string {
  return new Date(at).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
}
