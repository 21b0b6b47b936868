"use client";

import { type NewsLine, newsLine } from "./line";

/** The one line of this tab; pages come and go on it. */
let line: NewsLine | null = null;

/** Where a signed-in person's stream is; a screen with a key has one of its own. */
export const NEWS = "/api/news";
export const WALL_NEWS = "/api/wall/news";
export type NewsAddress = typeof NEWS | typeof WALL_NEWS;

/** The first caller says which stream it is. */
export function lineOfThisTab(address: NewsAddress = NEWS): NewsLine {
  if (line) return line;
  const made = newsLine({
    address,
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
