import { listGauges } from "../../db/queries/gauges";
import { type GaugeDue, gaugesDue } from "../../lib/board/gauges-due";
import { calendarDay } from "../../lib/format/times";
import { calibrationWords } from "../../lib/measurement-systems/calibration";
import type { Words } from "../../lib/words/words";
import { database } from "../database";
import type { PlacedRow } from "./placed-rows";

/** Gauges whose calibration is due, of those that measured the latest pieces of the rows shown. */
export async function loadGaugesDue(
  placed: readonly PlacedRow[],
  { now, zone }: { now: number; zone: string },
): Promise<GaugeDue[]> {
  const gauges = await listGauges(await database());
  return gaugesDue(
    gauges.map(({ id, code, retired, record }) => ({
      id,
      code,
      retired,
      calibrationDue: record?.calibrationDue ?? null,
      features: placed.filter(({ sources }) => sources.gauge === code).length,
    })),
    calendarDay(now, zone),
  );
}

/** What is the matter with it, as a sentence. */
export function gaugeDueWords({ standing, features }: GaugeDue, words: Words["board"]): string {
  return words.calibration(calibrationWords(standing, words.calibrationStates), features);
}
