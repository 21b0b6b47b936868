import { type MemoryPoint, onZ } from "../../../lib/charts/memory-chart";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { asEntered, fixed, inDigits } from "../../../lib/format/numbers";
import { standardiseLocation } from "../../../lib/limits/standardise";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import type { Words } from "../../../lib/words/words";
import type { MemoryFigures } from "./memory-figures";

type Line = [term: string, working: string];

/** The latest point of a chart with a memory with its own figures in the formula. */
export function memoryWorking(
  { points, versions }: Evaluation,
  {
    all,
    chart,
    latest,
    figures,
    said,
  }: {
    all: readonly (MemoryPoint | null)[];
    chart: MemoryChart;
    latest: number;
    figures: MemoryFigures;
    said: Words["otherCharts"]["memory"]["working"];
  },
): Line[] {
  const version = versions[points.limits[latest]!];
  const point = all[latest];
  if (!version || !point) return [];
  const size = points.size[latest]!;
  const mean = points.mean[latest]!;
  const z = standardiseLocation(version, { mean, size });
  // Of counts a size is a share of the usual sample, which its division leaves with digits that nobody checks.
  const sizeShown = trimmed(size);
  const root = size === 1 ? "" : ` / √${sizeShown}`;
  const isFirst = startOf(points.limits, latest) === latest;
  const before = isFirst
    ? null
    : (all.slice(startOf(points.limits, latest), latest).findLast((one) => one !== null) ?? null);

  if (chart.kind === "ewma" && point.kind === "ewma") {
    const isZ = onZ(version);
    const { smoothing, width } = chart;
    const plotted = isZ ? z : mean;
    const centre = isZ ? 0 : version.centre;
    const previous = before?.kind === "ewma" ? before.smoothed : centre;
    const reach = point.upper - centre;
    const sigma = isZ ? 1 : version.sigma;
    return [
      [
        said.average,
        said.averageIs(
          `${asEntered(smoothing)}·${figures.bare(plotted, 1)} + ${trimmed(1 - smoothing)}·${figures.bare(previous, 1)}`,
          figures.withUnit(point.smoothed, 1),
        ),
      ],
      [said.variance, said.varianceIs(isZ ? "1" : sizeShown, figures.bare(reach / width, 2))],
      [
        said.limits,
        said.limitsAre(
          `${figures.bare(centre)} ± ${asEntered(width)}·${figures.bare(reach / width, 2)}`,
          figures.bare(point.lower),
          figures.withUnit(point.upper),
        ),
      ],
      [said.from, said.fromIs(figures.withUnit(centre), figures.withUnit(sigma, 1))],
    ];
  }
  if (chart.kind === "cusum" && point.kind === "cusum") {
    const { reference, decisionInterval, headStart } = chart;
    const was = before?.kind === "cusum" ? before : { upper: headStart, lower: headStart };
    const held = (sum: number) => Math.min(sum, decisionInterval);
    const sum = (previous: number, sign: "+" | "−", result: number) =>
      `max(0, ${fixed(held(previous), 2)} ${sign} (${fixed(z, 2)}) − ${asEntered(reference)}) = ${fixed(result, 2)}`;
    return [
      [
        said.point,
        said.pointIs(
          root,
          `(${figuresOf(mean)} − ${figuresOf(version.centre)}) / (${figuresOf(version.sigma)}${root}) = ${fixed(z, 2)}`,
        ),
      ],
      [said.upper, `max(0, C⁺ + z − k) = ${sum(was.upper, "+", point.upper)}`],
      [said.lower, `max(0, C⁻ − z − k) = ${sum(was.lower, "−", point.lower)}`],
      [said.signal, said.signalIs(decisionInterval)],
    ];
  }
  return [];
}

/** Where the phase of a point begins. */
function startOf(limits: ArrayLike<number>, latest: number): number {
  let from = latest;
  while (from > 0 && limits[from - 1] === limits[latest]) from--;
  return from;
}

function trimmed(value: number): string {
  return inDigits(value, 6);
}

/** Figures of a feature's own in a line of pure numbers: six digits are more than anybody checks by hand. */
function figuresOf(value: number): string {
  return inDigits(value, 7);
}
