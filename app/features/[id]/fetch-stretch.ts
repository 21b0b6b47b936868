import type { ChartStretch } from "../../../lib/chart/chart-view";
import type { ReadingColumns } from "../../../lib/chart/point-columns";
import type { ShownWindow } from "../../../lib/chart/shown-window";
import { fill } from "../../../lib/words/fill";

type Asked = { range: ShownWindow; words: { noAnswer: string; status: string } };

/** A stretch of a feature's history as it now is. Rejects with what the reader is to know. */
export function fetchStretch(featureId: number, asked: Asked): Promise<ChartStretch> {
  return fetched<ChartStretch>(`/api/features/${featureId}/points`, asked);
}

/** The single readings of such a stretch. */
export function fetchReadings(featureId: number, asked: Asked): Promise<ReadingColumns> {
  return fetched<ReadingColumns>(`/api/features/${featureId}/readings`, asked);
}

/** Longer than that nobody waits for a picture. */
const GIVE_UP_MS = 20_000;

async function fetched<Found>(address: string, { range, words }: Asked): Promise<Found> {
  const signal = AbortSignal.timeout(GIVE_UP_MS);
  const answer = await fetch(`${address}?from=${range.from}&to=${range.to}`, { signal }).catch(() => null);
  if (!answer) throw new Error(words.noAnswer);
  const found: unknown = await answer.json().catch(() => null);
  if (answer.ok && found !== null) return found as Found;
  const said = (found as { message?: unknown } | null)?.message;
  throw new Error(typeof said === "string" ? said : fill(words.status, { status: answer.status }));
}
