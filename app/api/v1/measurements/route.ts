import { NotStored } from "../../../../db/connection";
import { postMeasurements } from "../../../../db/intake/post-measurements";
import { plantSettings } from "../../../../db/queries/settings";
import { counted } from "../../../../lib/format/numbers";
import { UnreadableFile } from "../../../../lib/intake/unreadable-file";
import { type ZoneOffset, zoneTable } from "../../../../lib/intake/zone";
import { requireKey } from "../../../access";
import { database } from "../../../database";
import { readLimited } from "../../../limited-body";
import type { MachineRequest } from "../../../straight";
import { readBody } from "./body";

export const dynamic = "force-dynamic";

/** The plant's zone; making it asks the time zone data, which a machine that posts fifty times a second need not. */
let zoneOfPlant: { name: string; offset: ZoneOffset } | null = null;
const IDEMPOTENCY_KEY = /^[\x21-\x7e]{1,200}$/;

/**
 * Takes measurements from a machine. Answered once they are on the disk, judged, and their alarms raised; see
 * README.md for the body and the answers. In production requests come here past Next: app/straight.ts.
 */
export async function POST(request: MachineRequest): Promise<Response> {
  const key = await requireKey(request, "POST /api/v1/measurements");
  if (key instanceof Response) return key;
  const type = request.headers.get("content-type") ?? "";
  if (!/^application\/json\s*(;|$)/i.test(type))
    return refused(415, 'the body must be JSON, with the header "Content-Type: application/json".');
  const idempotencyKey = request.headers.get("idempotency-key");
  if (idempotencyKey !== null && !IDEMPOTENCY_KEY.test(idempotencyKey))
    return refused(400, "the Idempotency-Key must be 1 to 200 visible ASCII characters.");

  const limited = await readLimited(request);
  if (!limited.ok) return refused(limited.status, limited.why);
  const body = limited.text;
  let json: unknown;
  try {
    json = JSON.parse(body);
  } catch (error) {
    return refused(400, `the body is not JSON: ${(error as Error).message.slice(0, 200)}`);
  }
  const read = readBody(json);
  if (!read.ok) return refused(422, read.reason, { path: read.path });

  const plant = await database();
  const { zone, clock } = await plantSettings(plant);
  const now = Date.now();
  if (zoneOfPlant?.name !== zone) zoneOfPlant = { name: zone, offset: zoneTable(zone) };
  try {
    const result = await postMeasurements(plant, {
      key,
      idempotencyKey,
      body,
      posted: () => read.posted,
      zone: zoneOfPlant.offset,
      actor: { accountId: null, at: clock ?? now, keyId: key.id },
      now,
    });
    if (result.kind === "stored") {
      return new Response(result.answer, {
        headers: {
          "content-type": "application/json",
          ...(result.isRepeated ? { "x-steadyrest-repeated": "true" } : {}),
        },
      });
    }
    if (result.kind === "conflict")
      return refused(
        409,
        "this Idempotency-Key came before with another body. A new request needs a new key; a repeated one the same body.",
      );
    const [first] = result.refused;
    return refused(
      422,
      `nothing could be taken, ${counted(result.count, "measurement")} refused. The first: ${first?.path}: ${first?.reason}`,
      { refusals: result.refused },
    );
  } catch (error) {
    if (error instanceof UnreadableFile) return refused(422, error.message);
    if (error instanceof NotStored)
      return error.why === "busy"
        ? Response.json({ message: error.digest }, { status: 503, headers: { "retry-after": "5" } })
        : Response.json({ message: error.digest }, { status: 507 });
    throw error;
  }
}

function refused(status: number, why: string, more: object = {}): Response {
  return Response.json({ message: `Nothing saved: ${why}`, ...more }, { status });
}
