import { existsSync, statSync } from "node:fs";
import { join } from "node:path";
import { backUp, NoBackup } from "../../../db/backup";
import { databasePath, withDatabase } from "../database";
import { printJson } from "../output";
import { Refused, WrongUsage } from "../refusal";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `backup DEST   copy the database while it is used

DEST is a file that is not there yet, or a folder, in which the copy is named after the moment. The copy is checked
before it appears under its name. It holds accounts with the digests of their passwords: keep it as you keep keys.
The head printed names the last line of the record; noted down elsewhere, "verify --head" proves the lines later.
  --json    {"ok","path","bytes","head":{"lines","digest"}}
`,
  options: { json: { type: "boolean" } },
  async run({ values, positionals }) {
    const [dest, ...more] = positionals;
    if (!dest || more.length > 0) throw new WrongUsage("backup takes one destination.");
    if (!existsSync(databasePath()))
      throw new Refused({
        file: databasePath(),
        reason: "there is no database yet, so there is nothing to copy.",
      });
    const isFolder = statSync(dest, { throwIfNoEntry: false })?.isDirectory() ?? false;
    const stamp = new Date().toISOString().slice(0, 19).replaceAll(":", "").replace("T", "-");
    const to = isFolder ? join(dest, `steadyrest-${stamp}.db`) : dest;
    const result = await withDatabase((database) => backUp(database, { to })).catch((error: unknown) => {
      if (error instanceof NoBackup)
        throw new Refused({ file: dest, reason: `no backup made: ${error.message}` });
      throw error;
    });
    if (values.json) printJson({ ok: true, ...result });
    else
      process.stdout.write(
        `Copied to ${result.path}, ${result.bytes} bytes, checked. Head of the record: ${result.head.lines}:${result.head.digest}\n`,
      );
  },
});
