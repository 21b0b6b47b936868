import { z } from "zod";
import type { RecordFilter } from "../../db/queries/record";
import { isCalendarDay } from "../../lib/format/times";
import { daySpan } from "../../lib/intake/zone";

const day = z.string().refine(isCalendarDay).optional().catch(undefined);

const Query = z.object({
  text: z.string().trim().max(200).optional().catch(undefined),
  person: z.coerce.number().int().positive().optional().catch(undefined),
  from: day,
  to: day,
  before: z.coerce.number().int().positive().optional().catch(undefined),
});

export type RecordQuery = z.infer<typeof Query>;

/** What an address asks of the record; what cannot be read counts as not asked. Days are those of the plant. */
export function recordQuery(
  asked: Record<string, unknown>,
  { zone }: { zone: string },
): { query: RecordQuery; filter: RecordFilter } {
  const query = Query.parse(asked);
  const { text, person, from, to } = query;
  return {
    query,
    filter: {
      ...(text ? { text } : {}),
      accountId: person ?? null,
      from: from ? daySpan(from, zone).from : null,
      to: to ? daySpan(to, zone).to : null,
    },
  };
}

/** The address of the same question with something of it changed. */
export function recordAddress(path: string, query: RecordQuery): string {
  const words = new URLSearchParams();
  for (const [key, value] of Object.entries(query)) if (value) words.set(key, String(value));
  const text = words.toString();
  return text === "" ? path : `${path}?${text}`;
}
