import { z } from "zod";
import type { RecordFilter } from "../../db/queries/record";
import { zoneTable } from "../../lib/intake/zone";

const DAY_MS = 24 * 3_600_000;
const day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .refine((text) => !Number.isNaN(Date.parse(text)))
  .optional()
  .catch(undefined);

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
  const offset = zoneTable(zone);
  const begins = (localMs: number) => localMs - offset(localMs) * 60_000;
  return {
    query,
    filter: {
      ...(text ? { text } : {}),
      accountId: person ?? null,
      from: from ? begins(Date.parse(from)) : null,
      to: to ? begins(Date.parse(to) + DAY_MS) - 1 : null,
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
