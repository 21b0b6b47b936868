"use client";

import { type ReactNode, useEffect, useState } from "react";
import { fill } from "../../../lib/words/fill";
import styles from "./wall.module.css";

/** Long enough to read five rows aloud. */
const SHOWN_MS = 12_000;

/** One page after the other where not all fits; nobody touches a screen on a wall. */
export function WallPages({ pages, words }: { pages: readonly ReactNode[]; words: string }) {
  const [turn, setTurn] = useState(0);
  const count = pages.length;
  useEffect(() => {
    if (count < 2) return;
    const timer = setInterval(() => setTurn((before) => (before + 1) % count), SHOWN_MS);
    return () => clearInterval(timer);
  }, [count]);
  const shown = turn % count;
  return (
    <>
      {pages[shown]}
      <p className={styles.turn}>{count < 2 ? "" : fill(words, { page: shown + 1, count })}</p>
    </>
  );
}
