"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import type { LineState } from "../../news/line";
import { lineOfThisTab, type NewsAddress } from "../../news/this-tab";
import styles from "./wall.module.css";

/** Ages in words go on also when nothing happens. */
const LOOK_AGAIN_MS = 60_000;
/** Two looks missed: whoever stands before it must know. */
const OLD_MS = 150_000;
/** A page that is made anew now and then holds on to nothing, and takes over a newer version of the program. */
const RELOAD_MS = 6 * 3_600_000;
const TICK_MS = 1000;

const OPENING: LineState = { is: "opening", since: 0 };

/**
 * The clock of the wall, when what it shows was read, and in plain sight when that is old or the connection gone.
 *
 * Ages are counted on this screen's own clock from the moment at which the page arrived, so that a screen whose
 * clock is wrong is not taken for one whose data are old.
 */
export function WallClock({
  madeAt,
  stoppedAt,
  zone,
  measured,
  stream,
  words,
}: {
  /** When the server read what the page shows. */
  madeAt: number;
  /** The demo's clock stands still here; null lets it run. */
  stoppedAt: number | null;
  zone: string;
  measured: string;
  stream: NewsAddress;
  words: Words["board"]["wall"]["clock"];
}) {
  const router = useRouter();
  const arrived = useRef({ madeAt, at: 0 });
  const [elapsed, setElapsed] = useState(0);
  const state = useSyncExternalStore(
    (changed) => lineOfThisTab(stream).watch(changed),
    () => lineOfThisTab(stream).state(),
    () => OPENING,
  );
  const isOpen = state.is === "open";

  useEffect(() => {
    arrived.current = { madeAt, at: performance.now() };
    setElapsed(0);
  }, [madeAt]);

  useEffect(() => {
    const timer = setInterval(() => setElapsed(performance.now() - arrived.current.at), TICK_MS);
    return () => clearInterval(timer);
  }, []);

  useEffect(() => {
    if (!isOpen) return;
    const looking = setInterval(() => router.refresh(), LOOK_AGAIN_MS);
    // Only while the server answers: otherwise the browser would show its own page of errors from then on.
    const reloading = setTimeout(() => location.reload(), RELOAD_MS);
    return () => {
      clearInterval(looking);
      clearTimeout(reloading);
    };
  }, [isOpen, router]);

  // On a wall nobody can look at another tab; the line must not fall asleep when the screen saver covers it.
  useEffect(() => lineOfThisTab(stream).stayAwake(), [stream]);

  const time = (at: number) =>
    new Intl.DateTimeFormat("en-GB", { timeZone: zone, timeStyle: "short" }).format(at);
  const isOld = elapsed > OLD_MS;
  const warning =
    state.is === "signed-out"
      ? fill(words.signedOut, { time: time(madeAt) })
      : state.is === "gone"
        ? fill(words.gone, { time: time(madeAt) })
        : isOld
          ? fill(words.old, { time: time(madeAt) })
          : null;
  return (
    <div className={styles.clock}>
      <time dateTime={new Date(madeAt + elapsed).toISOString()} suppressHydrationWarning>
        {time(stoppedAt ?? madeAt + elapsed)}
      </time>
      <p role="status" className={warning ? styles.warning : styles.measured}>
        {warning ?? measured}
      </p>
    </div>
  );
}
