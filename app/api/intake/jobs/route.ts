import { requireEndpoint } from "../../../access";
import { listJobs } from "../../../jobs/jobs";
import { words } from "../../../language/language";

/** Every job of the last hour in the order of the queue; a page that waits asks twice a second. */
export async function GET(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/jobs");
  if (asker instanceof Response) return asker;
  const { say } = (await words()).storedTexts;
  const jobs = listJobs().map(({ message, outcome, ...job }) => ({
    ...job,
    message: say(message),
    outcome: outcome && { ...outcome, message: say(outcome.message) },
  }));
  return Response.json({ jobs }, { headers: { "cache-control": "no-store" } });
}
