"use client";

import { useSyncExternalStore } from "react";

/*
 * The subgroup that is chosen on the chart, for the panels around it. It lives outside the components,
 * because chart and panels are drawn apart and a choice should not draw the page anew.
 */
let chosen: number | null = null;
const listeners = new Set<() => void>();

export function setFocusedPoint(number: number | null): void {
  if (number === chosen) return;
  chosen = number;
  for (const listener of listeners) listener();
}

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** Number of the chosen subgroup, from 0; null while none is. */
export function useFocusedPoint(): number | null {
  return useSyncExternalStore(
    subscribe,
    () => chosen,
    () => null,
  );
}
