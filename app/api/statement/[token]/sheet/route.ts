import { openEndpoint } from "../../../../access";
import { sheetFile } from "../../../../capability/statements/sheet-file";
import { opened } from "../../../../statement/opened";

type Context = { params: Promise<{ token: string }> };

/** The printed statement behind a link, on the paper that is asked for. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  openEndpoint(request, "GET /api/statement/[token]/sheet");
  const paper = new URL(request.url).searchParams.get("form") === "letter" ? "letter" : "a4";
  const found = await opened((await params).token, `PDF, ${paper}`);
  if (found.state === "busy") return refused(429, "This link was opened too often just now. Wait a minute.");
  const file = found.state === "open" ? await sheetFile(found.statement.id, paper, request) : null;
  return (
    file ??
    refused(404, "This link does not open anything, or not any more. Ask whoever sent it for a new one.")
  );
}

function refused(status: number, message: string): Response {
  return Response.json({ message }, { status });
}
