import type { BoardRow } from "../../db/queries/board";
import { listGauges } from "../../db/queries/gauges";
import { type GaugeDue, gaugesDue } from "../../lib/board/gauges-due";
import { calendarDay } from "../../lib/format/times";
import { calibrationWords } from "../../lib/measurement-systems/calibration";
import type { Words } from "../../lib/words/words";
import { database } from "../database";

/** Gauges whose calibration is due, of those that measured the latest pieces of the rows shown. */
export async function loadGaugesDue(
  rows: readonly BoardRow[],
  { now, zone }: { now: number; zone: string },
): Promise<GaugeDue[]> {
  const gauges = await listGauges(await database());
  const features = new Map<string, number>();
  for (const { sources } of rows) {
    if (sources.gauge !== undefined) features.set(sources.gauge, (features.get(sources.gauge) ?? 0) + 1);
  }
  return gaugesDue(
    gauges.map(({ id, code, retired, record }) => ({
      id,
      code,
      retired,
      calibrationDue: record?.calibrationDue ?? null,
      features: features.get(code) ?? 0,
    })),
    calendarDay(now, zone),
  );
}

/** What is the matter with it, as a sentence. */
export function gaugeDueWords({ standing, features }: GaugeDue, words: Words["board"]): string {
  return words.calibration(calibrationWords(standing, words.calibrationStates), features);
}
