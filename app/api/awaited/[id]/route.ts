import { requireEndpoint } from "../../../access";
import { giveUp, shareOf } from "../../../jobs/awaited";

type Context = { params: Promise<{ id: string }> };

/** How far the work has come that this person waits for under this ticket; a page that waits asks now and then. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/awaited/[id]");
  if (asker instanceof Response) return asker;
  const share = shareOf({ name: (await params).id, accountId: asker.person.id });
  return share ? Response.json(share, { headers: { "cache-control": "no-store" } }) : nothingAwaited();
}

/** Gives the work up. The page hears from the work itself whether it was in time. */
export async function DELETE(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "DELETE /api/awaited/[id]");
  if (asker instanceof Response) return asker;
  return giveUp({ name: (await params).id, accountId: asker.person.id })
    ? new Response(null, { status: 204 })
    : nothingAwaited();
}

function nothingAwaited(): Response {
  return Response.json(
    { message: "Nothing of this name is being worked at; it may be done." },
    { status: 404 },
  );
}
