import { intakeById } from "../../../../../db/queries/intakes";
import { requireEndpoint } from "../../../../access";
import { database } from "../../../../database";
import { refuse } from "../../../../intake/respond";
import { startUndo } from "../../../../intake/start-job";
import { words } from "../../../../language/language";

type Context = { params: Promise<{ id: string }> };

/** Puts the undoing of an intake into the queue. */
export async function POST(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "POST /api/intake/[id]/undo");
  if (asker instanceof Response) return asker;
  const { intake: all, trade } = await words();
  const { answers: said } = all;
  const id = Number((await params).id);
  const intake = Number.isSafeInteger(id) ? await intakeById(await database(), id) : null;
  if (!intake) return refuse(404, said.undoNoIntake);
  if (intake.state !== "done") return refuse(409, said.undoState(trade.states[intake.state]));
  return Response.json({ job: await startUndo(intake, { actor: asker.actor }) }, { status: 202 });
}
