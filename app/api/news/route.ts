import { requireEndpoint, stillMay } from "../../access";
import { answerStream } from "./answer-stream";

export const dynamic = "force-dynamic";

/** What happens, for the pages of signed-in people. */
export async function GET(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/news");
  if (asker instanceof Response) return asker;
  return answerStream(request, await stillMay("GET /api/news"));
}
