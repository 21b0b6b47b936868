import { openEndpoint } from "../../access";

/** Whether the process answers at all; whether it can work is told by /api/ready. */
export async function GET(request: Request): Promise<Response> {
  openEndpoint(request, "GET /api/health");
  return Response.json({ status: "ok" }, { headers: { "cache-control": "no-store" } });
}
