import { mkdirSync } from "node:fs";
import { rebuildOutdated } from "../../../db/commands/rebuild";
import { openDatabase } from "../../../db/connection";
import { migrate } from "../../../db/migrate";
import { databasePath } from "../database";
import { printJson } from "../output";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `migrate   bring the tables of the database up to date

A database that holds something is first copied beside itself. Where this version judges otherwise than the one
before, what follows from the measurements is computed anew.
  --json    {"ok","applied","backup","rebuilt"}
`,
  options: { json: { type: "boolean" } },
  async run({ values }) {
    mkdirSync(process.env.STEADYREST_DATA ?? "data", { recursive: true });
    const database = await openDatabase(databasePath());
    try {
      const { applied, backup } = await migrate(database);
      const rebuilt = await rebuildOutdated(database);
      if (values.json) printJson({ ok: true, applied, backup, rebuilt: rebuilt?.features ?? 0 });
      else if (backup)
        process.stdout.write(`The database was copied to ${backup} before its tables changed.\n`);
    } finally {
      await database.close();
    }
  },
});
