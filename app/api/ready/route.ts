import { openEndpoint } from "../../access";
import { notReady } from "../../readiness";

/** 200 while requests may be sent here, 503 with the reason while not (RFC 9110, section 15.6.4). */
export async function GET(request: Request): Promise<Response> {
  openEndpoint(request, "GET /api/ready");
  const reason = await notReady();
  const headers = { "cache-control": "no-store" };
  if (reason === null) return Response.json({ status: "ready" }, { headers });
  return Response.json({ status: "not ready", reason }, { status: 503, headers });
}
