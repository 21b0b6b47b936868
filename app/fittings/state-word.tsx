import type { ReactNode } from "react";
import { useCommonWords } from "#common-words";
import styles from "./state-word.module.css";

/**
 * The tone of a state and the shape that goes with it, so that neither colour nor shape stands alone beside
 * the word: act is a full diamond, seen one with a bar (somebody is on it), watch half a disc, calm a line,
 * done a tick, none an empty square.
 */
export type Tone = "act" | "seen" | "watch" | "calm" | "done" | "none";

const STATES = {
  act: "act",
  watch: "watch",
  quiet: "calm",
  unacknowledged: "act",
  acknowledged: "seen",
  returned: "watch",
  shelved: "none",
  closed: "done",
  frozen: "calm",
  trial: "watch",
  "no-limits": "none",
  done: "done",
  running: "watch",
  failed: "act",
  cancelled: "none",
  undone: "none",
} as const satisfies Record<string, Tone>;

export type StateName = keyof typeof STATES;

/** A state as shape and word. `children` replaces the usual word where the page can say more ("limits 3"). */
export function StateWord({ state, children }: { state: StateName; children?: ReactNode }) {
  const { trade } = useCommonWords();
  const tone = STATES[state];
  return (
    <span className={`${styles.state} ${styles[tone]}`}>
      <StateShape tone={tone} />
      {children ?? trade.states[state]}
    </span>
  );
}

/** The shape alone, for where the word stands beside it already. */
export function StateShape({ tone }: { tone: Tone }) {
  return (
    <svg
      className={`${styles.shape} ${styles[tone]}`}
      viewBox="0 0 16 16"
      width="14"
      height="14"
      aria-hidden="true"
      focusable="false"
    >
      {tone === "act" ? <path className={styles.full} d="M8 1 15 8 8 15 1 8Z" /> : null}
      {tone === "seen" ? (
        <>
          <path d="M8 1.8 14.2 8 8 14.2 1.8 8Z" />
          <path d="M5 8h6" />
        </>
      ) : null}
      {tone === "watch" ? (
        <>
          <circle cx="8" cy="8" r="6" />
          <path className={styles.full} d="M8 2a6 6 0 0 1 0 12Z" />
        </>
      ) : null}
      {tone === "calm" ? <path d="M2 8h12" /> : null}
      {tone === "done" ? <path d="M2.5 8.5 6.5 12.5 13.5 4" /> : null}
      {tone === "none" ? <path d="M2.5 2.5h11v11h-11Z" strokeDasharray="2.6 2.2" /> : null}
    </svg>
  );
}
