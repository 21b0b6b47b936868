"use client";

import { type NewsLine, newsLine } from "./line";

/** The one line of this tab; pages come and go on it. */
let line: NewsLine | null = null;

export function lineOfThisTab(): NewsLine {
  if (line) return line;
  const made = newsLine({
    open: (url) => new EventSource(url),
    statusOf,
    now: () => Date.now(),
  });
  document.addEventListener("visibilitychange", () => made.seen(document.visibilityState === "visible"));
  window.addEventListener("online", () => made.retryNow());
  line = made;
  return made;
}

async function statusOf(url: string): Promise<number> {
  const asked = new AbortController();
  try {
    const { status } = await fetch(url, { signal: asked.signal, cache: "no-store" });
    return status;
  } catch {
    return 0;
  } finally {
    asked.abort();
  }
}
