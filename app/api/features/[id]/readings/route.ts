import { requireEndpoint } from "../../../../access";
import { askedRange } from "../../../../features/[id]/asked-range";
import { chartReadings } from "../../../../features/[id]/load-chart";

type Context = { params: Promise<{ id: string }> };

/** The single readings behind a chart's points from one to another, for the panel beside the chart. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/features/[id]/readings");
  if (asker instanceof Response) return asker;
  const asked = await askedRange(request, (await params).id);
  if (asked instanceof Response) return asked;
  const { database, judged, range } = asked;
  return Response.json(await chartReadings(database, judged, range), asked.answer);
}
