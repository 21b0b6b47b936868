import { featuresOfIntake } from "../../../../../db/queries/intakes";
import { requireEndpoint } from "../../../../access";
import { database } from "../../../../database";

type Context = { params: Promise<{ id: string }> };

/** The features an intake has touched; none for an intake that is not there. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/[id]/features");
  if (asker instanceof Response) return asker;
  const id = Number((await params).id);
  const features = Number.isSafeInteger(id) ? await featuresOfIntake(await database(), id) : [];
  return Response.json({ features }, { headers: { "cache-control": "no-store" } });
}
