import { openEndpoint } from "../../../../access";
import { sheetFile } from "../../../../capability/statements/sheet-file";
import { words } from "../../../../language/language";
import { opened } from "../../../../statement/opened";

type Context = { params: Promise<{ token: string }> };

/** The printed statement behind a link, on the paper that is asked for. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  openEndpoint(request, "GET /api/statement/[token]/sheet");
  const { shared: said } = (await words()).statements;
  const paper = new URL(request.url).searchParams.get("form") === "letter" ? "letter" : "a4";
  const found = await opened((await params).token, `PDF, ${paper}`);
  if (found.state === "busy") return refused(429, said.busyWhy);
  const file = found.state === "open" ? await sheetFile(found.statement.id, paper, request) : null;
  return file ?? refused(404, `${said.closed}. ${said.closedWhy}`);
}

function refused(status: number, message: string): Response {
  return Response.json({ message }, { status });
}
