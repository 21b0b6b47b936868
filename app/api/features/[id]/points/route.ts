import { requireEndpoint } from "../../../../access";
import { askedRange } from "../../../../features/[id]/asked-range";
import { chartStretch } from "../../../../features/[id]/load-chart";
import { plant } from "../../../../plant";

type Context = { params: Promise<{ id: string }> };

/**
 * What a feature's chart draws and tells of the subgroups from one to another. For the chart's own page, which moves
 * over a long history with it.
 */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/features/[id]/points");
  if (asker instanceof Response) return asker;
  const asked = await askedRange(request, (await params).id);
  if (asked instanceof Response) return asked;
  const { database, judged, range } = asked;
  const { zone } = await plant();
  return Response.json(await chartStretch(database, judged, { range, zone }), asked.answer);
}
