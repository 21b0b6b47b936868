import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { requireEndpoint } from "../../../../access";
import { FILES_TO_TRY } from "../../../../intake/files-to-try";
import { refuse } from "../../../../intake/respond";
import { plant } from "../../../../plant";

type Context = { params: Promise<{ name: string }> };

/** The files of the demo's walk-through, which a newcomer downloads and drops on Intake. Only in demo mode. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/files-to-try/[name]");
  if (asker instanceof Response) return asker;
  const { name } = await params;
  if (!(await plant()).demo || !FILES_TO_TRY.some((file) => file === name))
    return refuse(404, "There is no such file.");
  const bytes = await readFile(join(process.cwd(), "seed", "files", name));
  return new Response(new Uint8Array(bytes), {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="${name}"`,
    },
  });
}
