import type { MemoryPoint } from "../../../lib/charts/memory-chart";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { MEMORY_RULES } from "../../../lib/rules/memory-rules";
import type { Words } from "../../../lib/words/words";
import { numberOf } from "./chart-view";

/** Every stretch of signals on one side, in words, the latest first. */
export function memorySignals(
  { versions, points }: Evaluation,
  {
    all,
    chart,
    inUnit,
    day,
    words: { rules, otherCharts },
  }: {
    all: readonly (MemoryPoint | null)[];
    chart: MemoryChart;
    /** A mean in the feature's unit. */
    inUnit: (value: number) => string;
    day: (number: number) => string;
    words: Words;
  },
): string[] {
  const { memory: said } = otherCharts;
  const stretches: { from: number; to: number; side: "up" | "down"; shift: string }[] = [];
  let running: (typeof stretches)[number] | null = null;
  all.forEach((point, number) => {
    if (point === null) return;
    const side = point.signal;
    if (side === null) {
      running = null;
    } else if (running?.side === side) {
      running.to = number;
    } else {
      running = { from: number, to: number, side, shift: shiftWords(point) };
      stretches.push(running);
    }
  });

  function shiftWords(point: MemoryPoint): string {
    if (point.kind === "ewma" || point.shift === null) return "";
    const isZ = versions.some(({ betweenLots }) => betweenLots !== undefined);
    return said.cameOff(point.shift.points, isZ ? null : inUnit(point.shift.mean));
  }

  return stretches.reverse().map(({ from, to, side, shift }) => {
    const phrase = MEMORY_RULES[chart.kind].phrase(side, rules);
    const stretch = said.stretch({
      phrase: `${phrase.charAt(0).toUpperCase()}${phrase.slice(1)}`,
      from: numberOf(from),
      to: numberOf(to),
      day: day(from),
      isStill: to === points.count - 1,
    });
    return stretch + shift;
  });
}
