import { mkdirSync } from "node:fs";
import { openDatabase } from "../../../db/connection";
import { migrate } from "../../../db/migrate";
import { databasePath } from "../database";
import { printJson } from "../output";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `migrate   bring the tables of the database up to date

A database that holds something is first copied beside itself.
  --json    {"ok","applied","backup"}
`,
  options: { json: { type: "boolean" } },
  async run({ values }) {
    mkdirSync(process.env.STEADYREST_DATA ?? "data", { recursive: true });
    const database = await openDatabase(databasePath());
    try {
      const { applied, backup } = await migrate(database);
      if (values.json) printJson({ ok: true, applied, backup });
      else if (backup)
        process.stdout.write(`The database was copied to ${backup} before its tables changed.\n`);
    } finally {
      await database.close();
    }
  },
});
