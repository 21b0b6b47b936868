import { requireEndpoint } from "../../../access";
import { SAMPLE_FILE } from "../../../intake/tidy-columns";

/** A small file in the tidy layout, to fill in or to compare with. */
export async function GET(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/sample");
  if (asker instanceof Response) return asker;
  return new Response(SAMPLE_FILE, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": 'attachment; filename="measurements-sample.csv"',
    },
  });
}
