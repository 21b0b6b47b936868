import { requireEndpoint } from "../../../access";
import { listJobs } from "../../../jobs/jobs";

/** Every job of the last hour in the order of the queue; a page that waits asks twice a second. */
export async function GET(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/jobs");
  if (asker instanceof Response) return asker;
  return Response.json({ jobs: listJobs() }, { headers: { "cache-control": "no-store" } });
}
