import { intakeById, refusalsOf } from "../../../../../db/queries/intakes";
import { requireEndpoint } from "../../../../access";
import { database } from "../../../../database";
import { refusalsCsv } from "../../../../intake/refusals-csv";
import { refuse } from "../../../../intake/respond";
import { words } from "../../../../language/language";

type Context = { params: Promise<{ id: string }> };

/** The refused rows of an intake as a file to download. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/[id]/refusals");
  if (asker instanceof Response) return asker;
  const id = Number((await params).id);
  const intake = Number.isSafeInteger(id) ? await intakeById(await database(), id) : null;
  if (!intake) return refuse(404, (await words()).intake.answers.noIntake);
  return new Response(refusalsCsv(await refusalsOf(await database(), id)), {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="refused-rows-of-intake-${id}.csv"`,
    },
  });
}
