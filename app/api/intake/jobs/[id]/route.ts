import { requireEndpoint } from "../../../../access";
import { refuse } from "../../../../intake/respond";
import { cancelJob, jobById } from "../../../../jobs/jobs";
import { words } from "../../../../language/language";

type Context = { params: Promise<{ id: string }> };

/** Asks a job to stop. It says in its state when it has, and whether it was already too late. */
export async function DELETE(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "DELETE /api/intake/jobs/[id]");
  if (asker instanceof Response) return asker;
  const { id } = await params;
  const { answers: said } = (await words()).intake;
  const job = jobById(id);
  if (!job) return refuse(404, said.noJob);
  if (job.kind === "undo" && job.state === "running") return refuse(409, said.noCancel);
  if (!cancelJob(id)) return refuse(409, said.ended);
  return Response.json({ job: jobById(id) }, { status: 202 });
}
