import { mkdirSync } from "node:fs";
import { NoBackup, restore } from "../../../db/backup";
import { databasePath } from "../database";
import { printJson } from "../output";
import { Refused, WrongUsage } from "../refusal";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `restore SRC   put a backup into an empty place

The place is the folder STEADYREST_DATA; a database that is there already is never replaced. The copy is brought up to
date, all sessions in it end, and the record says that it was restored. SRC itself is not changed.
  --json    {"ok","path","applied","head":{"lines","digest"}}
`,
  options: { json: { type: "boolean" } },
  async run({ values, positionals }) {
    const [from, ...more] = positionals;
    if (!from || more.length > 0) throw new WrongUsage("restore takes one backup.");
    mkdirSync(process.env.STEADYREST_DATA ?? "data", { recursive: true });
    const to = databasePath();
    const actor = { accountId: null, at: Date.now() };
    const result = await restore({ from, to, actor }).catch((error: unknown) => {
      if (error instanceof NoBackup)
        throw new Refused({ file: from, reason: `nothing restored: ${error.message}` });
      throw error;
    });
    if (values.json) printJson({ ok: true, path: to, ...result });
    else
      process.stdout.write(`Restored to ${to}. The record has ${result.head.lines} lines. Now run verify.\n`);
  },
});
