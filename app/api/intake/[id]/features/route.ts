import { featuresOfIntake, intakeById } from "../../../../../db/queries/intakes";
import { requireEndpoint } from "../../../../access";
import { database } from "../../../../database";
import { refuse } from "../../../../intake/respond";
import { words } from "../../../../language/language";

type Context = { params: Promise<{ id: string }> };

/** The features an intake has touched. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/[id]/features");
  if (asker instanceof Response) return asker;
  const id = Number((await params).id);
  const db = await database();
  if (!Number.isSafeInteger(id) || !(await intakeById(db, id)))
    return refuse(404, (await words()).intake.answers.noIntake);
  const features = await featuresOfIntake(db, id);
  return Response.json({ features }, { headers: { "cache-control": "no-store" } });
}
