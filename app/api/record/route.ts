import { recordLines } from "../../../db/queries/record";
import { csvText } from "../../../lib/format/csv";
import { requireEndpoint } from "../../access";
import { database } from "../../database";
import { plant } from "../../plant";
import { recordQuery } from "../../record/record-filter";

/** More than that is read with `backup`; a spreadsheet does not open it anyway. */
const MOST_LINES = 200_000;

/** The record, or the part of it that the address asks for, as a CSV file, the newest line first. */
export async function GET(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/record");
  if (asker instanceof Response) return asker;
  const { filter } = recordQuery(Object.fromEntries(new URL(request.url).searchParams), await plant());
  const lines = await recordLines(await database(), { filter, count: MOST_LINES });
  const rows = lines.map(({ id, at, who, action, subject, before, after, reason, digest }) => [
    String(id),
    new Date(at).toISOString(),
    who,
    action,
    subject,
    before ?? "",
    after ?? "",
    reason,
    digest,
  ]);
  const head = ["line", "at", "who", "action", "subject", "before", "after", "reason", "digest"];
  return new Response(csvText([head, ...rows]), {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": 'attachment; filename="record.csv"',
      "cache-control": "no-store",
    },
  });
}
