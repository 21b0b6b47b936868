import type { Mapping } from "../../lib/intake/mapping";
import { type Database, write } from "../connection";
import { mapping as mappingTable } from "../schema";
import { type Actor, record } from "./audit";

/** Saves how a layout of file is read, under its name; an earlier one of that name is replaced. */
export async function saveMapping(
  database: Database,
  { mapping, fingerprint, actor }: { mapping: Mapping; fingerprint: string; actor: Actor },
): Promise<{ ok: true } | { ok: false; message: string }> {
  const name = mapping.name.trim();
  if (name === "") return { ok: false, message: "Nothing saved: give the mapping a name." };
  return write(database, (connection) => {
    const row = {
      name,
      fingerprint,
      definition: JSON.stringify({ ...mapping, name }),
      updatedAt: actor.at,
      accountId: actor.accountId,
    };
    connection.orm
      .insert(mappingTable)
      .values(row)
      .onConflictDoUpdate({ target: mappingTable.name, set: row })
      .run();
    record(connection, actor, { action: "save mapping", subject: name, after: mapping });
    return { ok: true };
  });
}
