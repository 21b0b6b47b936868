import { requireEndpoint } from "../../access";
import { boardFilter, boardPlace } from "../../board/board-filter";
import { sharedView } from "../../board/shared-views";

/** What the shift board of this address shows, read after the news that `after` names. For boards that are open. */
export async function GET(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/board");
  if (asker instanceof Response) return asker;
  const { after, ...asked } = Object.fromEntries(new URL(request.url).searchParams);
  const view = await sharedView({
    filter: boardFilter(asked),
    place: boardPlace(asked),
    after: /^\d{1,15}$/.test(after ?? "") ? Number(after) : 0,
  });
  return new Response(view, {
    headers: { "content-type": "application/json", "cache-control": "no-store" },
  });
}
