import { randomUUID } from "node:crypto";
import { createReadStream } from "node:fs";
import { mkdir, rm } from "node:fs/promises";
import { join } from "node:path";
import { Readable } from "node:stream";
import { backUp } from "../../../db/backup";
import { noteBackup } from "../../../db/commands/audit";
import { requireEndpoint } from "../../access";
import { database } from "../../database";

/** A backup of this moment as a download. The copy lies beside the database only until it has been sent. */
export async function GET(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/backup");
  if (asker instanceof Response) return asker;
  const folder = join(process.env.STEADYREST_DATA ?? "data", "backups");
  await mkdir(folder, { recursive: true });
  const db = await database();
  const file = join(folder, `${randomUUID()}.db`);
  const { bytes, head } = await backUp(db, { to: file });
  await noteBackup(db, { actor: { ...asker.actor, at: Date.now() }, head });
  const stream = createReadStream(file);
  stream.once("close", () => void rm(file, { force: true }));
  const stamp = new Date().toISOString().slice(0, 19).replaceAll(":", "").replace("T", "-");
  return new Response(Readable.toWeb(stream) as ReadableStream, {
    headers: {
      "content-type": "application/vnd.sqlite3",
      "content-length": String(bytes),
      "content-disposition": `attachment; filename="steadyrest-${stamp}.db"`,
      "cache-control": "no-store",
    },
  });
}
