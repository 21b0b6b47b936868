import { keyStands, requireKey } from "../../../access";
import { answerStream } from "../../news/answer-stream";

export const dynamic = "force-dynamic";

/** What happens, for a screen on a wall that has a key. */
export async function GET(request: Request): Promise<Response> {
  const key = await requireKey(request, "GET /api/wall/news");
  if (key instanceof Response) return key;
  return answerStream(request, keyStands(key));
}
