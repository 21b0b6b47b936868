import { type Database, write } from "../connection";
import type { PlantSettings } from "../queries/settings";
import { setting } from "../schema";
import { type Actor, record } from "./audit";

/** Changes some of the plant's settings; the others stay as they are. */
export async function changeSettings(
  database: Database,
  { changes, actor }: { changes: Partial<PlantSettings>; actor: Actor },
): Promise<void> {
  await write(database, (connection) => {
    const { name, zone, shifts, language, lengths, decimal, grouping, demo, clock } = changes;
    const stored: Record<string, string | undefined> = {
      name,
      zone,
      shifts: shifts && JSON.stringify(shifts),
      language,
      lengths,
      decimal,
      grouping,
      demo: demo === undefined ? undefined : demo ? "1" : "0",
      clock: clock === undefined || clock === null ? undefined : String(clock),
    };
    for (const [key, value] of Object.entries(stored)) {
      if (value === undefined) continue;
      connection.orm
        .insert(setting)
        .values({ key, value })
        .onConflictDoUpdate({ target: setting.key, set: { value } })
        .run();
    }
    record(connection, actor, { action: "change settings", subject: "plant", after: changes });
  });
}
