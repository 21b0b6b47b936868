import { studyById } from "../../../../../../db/queries/gauges";
import { requireEndpoint } from "../../../../../access";
import { database } from "../../../../../database";
import { readingsCsv } from "../../../../../gauges/readings-csv";
import { refuse } from "../../../../../intake/respond";

type Context = { params: Promise<{ id: string }> };

/** The readings of a study as a file, in the layout in which they can be entered again. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/gauges/studies/[id]/readings");
  if (asker instanceof Response) return asker;
  const id = Number((await params).id);
  const study = Number.isSafeInteger(id) ? await studyById(await database(), id) : null;
  if (!study) return refuse(404, "There is no such study.");
  return new Response(readingsCsv(study.data), {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="gauge-study-${id}.csv"`,
    },
  });
}
