import { requireEndpoint } from "../../../../../access";
import { sheetFile, sheetForm } from "../../../../../capability/statements/sheet-file";

import { words } from "../../../../../language/language";

type Context = { params: Promise<{ id: string }> };

/** A statement as PDF, workbook or CSV. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/capability/statements/[id]/sheet");
  if (asker instanceof Response) return asker;
  const { answers: said } = (await words()).statements;
  const id = Number((await params).id);
  const form = sheetForm.safeParse(new URL(request.url).searchParams.get("form"));
  if (!form.success) return refused(400, said.noForm);
  const file = Number.isSafeInteger(id) ? await sheetFile(id, form.data, request) : null;
  return file ?? refused(404, said.noStatement);
}

function refused(status: number, message: string): Response {
  return Response.json({ message }, { status });
}
