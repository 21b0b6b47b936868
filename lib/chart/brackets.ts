import type { Pattern } from "../evaluation/patterns";
import { ruleBySlug } from "../rules/known-rules";
import type { RuleWords } from "../rules/rule";

/** A pattern's members under one bracket. Places are subgroups; lane 0 lies nearest to the chart. */
export type Bracket = {
  pattern: Pattern;
  phrase: string;
  from: number;
  to: number;
  /** Its first or last members lie outside the window. */
  openLeft: boolean;
  openRight: boolean;
  lane: number;
};

/**
 * Brackets over the members of patterns, stacked where they would overlap.
 *
 * Each takes the lowest lane in which its span, and its words, find room. Single points beyond a limit have
 * no bracket: their own shape says it.
 *
 * @param window first and last subgroup shown
 * @param room subgroups that a phrase is wide; 0 where words are not drawn
 */
export function bracketsOf(
  patterns: readonly Pattern[],
  {
    window,
    room,
    words,
  }: {
    window: { from: number; to: number };
    room: (phrase: string) => number;
    /** Of the phrases; English where none are given. */
    words?: RuleWords;
  },
): Bracket[] {
  const shown = patterns
    .filter((pattern) => pattern.chart !== "memory" && ruleBySlug(pattern.rule).pattern.of > 1)
    .flatMap((pattern): Bracket[] => {
      const first = pattern.members[0] as number;
      const last = pattern.members.at(-1) as number;
      if (last < window.from || first > window.to) return [];
      return [
        {
          pattern,
          phrase: ruleBySlug(pattern.rule).phrase(pattern.direction, words),
          from: Math.max(first, window.from),
          to: Math.min(last, window.to),
          openLeft: first < window.from,
          openRight: last > window.to,
          lane: 0,
        },
      ];
    })
    .sort((a, b) => a.from - b.from || b.to - a.to);

  const endOfLane: number[] = [];
  for (const bracket of shown) {
    const { start, end } = wordsSpan(bracket, window, room(bracket.phrase));
    const free = endOfLane.findIndex((taken) => taken <= start);
    bracket.lane = free >= 0 ? free : endOfLane.length;
    endOfLane[bracket.lane] = end;
  }
  return shown;
}

/** What a bracket takes with its words, which begin with it and are pushed back inside the window. */
function wordsSpan(
  { from, to }: Bracket,
  window: { from: number; to: number },
  words: number,
): { start: number; end: number } {
  const start = Math.max(window.from - 0.5, Math.min(from - 0.5, window.to + 0.5 - words));
  return { start: Math.min(start, from - 0.5), end: Math.max(to + 0.5, start + words) };
}
