import { asEntered, fixed, whole } from "../format/numbers";
import type { MemoryChart } from "../plan/feature-plan";
import { working as english } from "../words/en/working";
import { cusumRunLength } from "./cusum";
import { ewmaRunLength } from "./ewma";

/** Points until a signal, on average: with nothing wrong, and with the mean off by so many sigma of the point. */
export type MemoryRunLengths = { inControl: number; shifted: { shift: number; points: number }[] };

const SHIFTS: readonly number[] = [0.5, 1, 2];

/**
 * Average run length of a chart with a memory, by `ewmaRunLength` with exact limits or `cusumRunLength`.
 *
 * @throws InvalidInput as they do
 */
export function memoryRunLengths(chart: MemoryChart): MemoryRunLengths {
  // Few designs watch many features, and each takes an integral equation or two.
  const key = JSON.stringify(chart);
  const known = computed.get(key);
  if (known) return known;
  const at = (shift: number) =>
    chart.kind === "ewma"
      ? ewmaRunLength({ ...chart, limits: "exact", shift })
      : cusumRunLength({ ...chart, shift });
  const found = { inControl: at(0), shifted: SHIFTS.map((shift) => ({ shift, points: at(shift) })) };
  if (computed.size < MOST_KEPT) computed.set(key, found);
  return found;
}

const MOST_KEPT = 200;
const computed = new Map<string, MemoryRunLengths>();

/** "465 points per false alarm; a shift of 0.5 sigma is found in 38 points, 1 in 10.4, 2 in 4.0." */
export function memoryRunLengthWords(chart: MemoryChart, words: RunLengthWords = english.runLength): string {
  const { inControl, shifted } = memoryRunLengths(chart);
  const found = shifted.map(({ shift, points }) => ({
    shift: asEntered(shift),
    points: pointsWords(points, words),
  }));
  return words.memory(pointsWords(inControl, words), found);
}

type RunLengthWords = typeof english.runLength;

const MANY = 1_000_000;

function pointsWords(points: number, { million }: RunLengthWords): string {
  if (points >= MANY) return million;
  return points < 100 ? fixed(points, 1) : whole(points);
}
