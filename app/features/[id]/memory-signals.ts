import type { MemoryPoint } from "../../../lib/charts/memory-chart";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { MEMORY_RULES } from "../../../lib/rules/memory-rules";
import { numberOf } from "./chart-view";

/** Every stretch of signals on one side, in words, the latest first. */
export function memorySignals(
  { versions, points }: Evaluation,
  {
    all,
    chart,
    inUnit,
    day,
  }: {
    all: readonly (MemoryPoint | null)[];
    chart: MemoryChart;
    /** A mean in the feature's unit. */
    inUnit: (value: number) => string;
    day: (number: number) => string;
  },
): string[] {
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
    const began = point.shift.points === 1 ? "1 point ago" : `${point.shift.points} points ago`;
    const isZ = versions.some(({ betweenLots }) => betweenLots !== undefined);
    const where = isZ ? "" : `, and the mean has been about ${inUnit(point.shift.mean)} since`;
    return ` The sum came off 0 ${began}${where}.`;
  }

  return stretches.reverse().map(({ from, to, side, shift }) => {
    const phrase = MEMORY_RULES[chart.kind].phrase(side);
    const numbers =
      from === to ? `subgroup ${numberOf(from)}` : `subgroups ${numberOf(from)} to ${numberOf(to)}`;
    const still = to === points.count - 1 ? ", still at the latest" : "";
    return `${phrase.charAt(0).toUpperCase()}${phrase.slice(1)}: ${numbers}, from ${day(from)}${still}.${shift}`;
  });
}
