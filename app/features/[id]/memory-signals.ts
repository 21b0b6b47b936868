import type { MemoryPoint } from "../../../lib/charts/memory-chart";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { MEMORY_RULES } from "../../../lib/rules/memory-rules";
import type { Words } from "../../../lib/words/words";
import { numberOf } from "./chart-view";

/** Signals of neighbouring subgroups on one side; `first` is the point at which they began. */
export type MemoryStretch = { from: number; to: number; side: "up" | "down"; first: MemoryPoint };

/** Every stretch of signals of a history, the latest first. */
export function memoryStretches(all: readonly (MemoryPoint | null)[]): MemoryStretch[] {
  const stretches: MemoryStretch[] = [];
  let running: MemoryStretch | null = null;
  all.forEach((point, number) => {
    if (point === null) return;
    const side = point.signal;
    if (side === null) {
      running = null;
    } else if (running?.side === side) {
      running.to = number;
    } else {
      running = { from: number, to: number, side, first: point };
      stretches.push(running);
    }
  });
  return stretches.reverse();
}

export function stretchWords(
  { from, to, side, first }: MemoryStretch,
  {
    evaluation: { versions, points },
    chart,
    inUnit,
    day,
    words: { rules, otherCharts },
  }: {
    evaluation: Evaluation;
    chart: MemoryChart;
    /** A mean in the feature's unit. */
    inUnit: (value: number) => string;
    day: (number: number) => string;
    words: Words;
  },
): string {
  const { memory: said } = otherCharts;
  const phrase = MEMORY_RULES[chart.kind].phrase(side, rules);
  const stretch = said.stretch({
    phrase: `${phrase.charAt(0).toUpperCase()}${phrase.slice(1)}`,
    from: numberOf(from),
    to: numberOf(to),
    day: day(from),
    isStill: to === points.count - 1,
  });
  if (first.kind === "ewma" || first.shift === null) return stretch;
  const isZ = versions.some(({ betweenLots }) => betweenLots !== undefined);
  return stretch + said.cameOff(first.shift.points, isZ ? null : inUnit(first.shift.mean));
}
