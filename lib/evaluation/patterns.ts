import type { ChartPart, Signal } from "./progress";

/** One lasting pattern on a chart: every firing of a rule that goes on from the one before. */
export type Pattern = {
  chart: ChartPart;
  rule: string;
  direction: Signal["direction"];
  /** The subgroup at which it was first complete, and the last at which it still was. */
  firstAt: number;
  lastAt: number;
  firstTime: number;
  lastTime: number;
  /** All subgroups that belong to it, ascending. */
  members: number[];
};

/**
 * Joins firings into the patterns that a person sees.
 *
 * A run of 12 points on one side completes "8 on one side" five times, at its 8th to 12th point; that is
 * one thing to look at, not five. A firing joins the latest pattern of the same chart, rule and direction
 * when the two share a member. A single point beyond a limit shares none, so each stays by itself.
 *
 * Order: by first completion, then as the signals came.
 */
export function joinSignals(signals: readonly Signal[]): Pattern[] {
  const patterns: Pattern[] = [];
  const latest = new Map<string, Pattern>();
  for (const signal of signals) {
    const key = `${signal.chart} ${signal.rule} ${signal.direction}`;
    const before = latest.get(key);
    const first = signal.members[0] ?? signal.at;
    if (before && first <= (before.members.at(-1) as number)) {
      const last = before.members.at(-1) as number;
      for (const member of signal.members) if (member > last) before.members.push(member);
      before.lastAt = signal.at;
      before.lastTime = signal.atTime;
      continue;
    }
    const pattern: Pattern = {
      chart: signal.chart,
      rule: signal.rule,
      direction: signal.direction,
      firstAt: signal.at,
      lastAt: signal.at,
      firstTime: signal.atTime,
      lastTime: signal.atTime,
      members: [...signal.members],
    };
    latest.set(key, pattern);
    patterns.push(pattern);
  }
  return patterns;
}
