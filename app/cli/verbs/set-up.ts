import { openSetUp } from "../../../db/commands/accounts";
import { databasePath, withDatabase } from "../database";
import { printJson } from "../output";
import { Refused } from "../refusal";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `set-up   print the one-time link with which the first account is made

Whoever can read this terminal may use it, within a day. A newer link takes the place of the one before.
  --if-needed  do nothing, without complaint, when there are accounts already
  --json       {"ok","path"} with path null when nothing was needed
`,
  options: { "if-needed": { type: "boolean" }, json: { type: "boolean" } },
  async run({ values }) {
    const token = await withDatabase((database) => openSetUp(database, { now: Date.now() }));
    if (token === null && !values["if-needed"]) {
      throw new Refused({
        file: databasePath(),
        reason: "the plant has accounts already. An admin adds further ones on the page People.",
      });
    }
    // Behind the #, a browser keeps it to itself: it is in no log.
    const path = token && `/set-up#${token}`;
    if (values.json) printJson({ ok: true, path });
    else if (path) {
      const port = process.env.PORT || "3000";
      process.stdout.write(
        `Make the first account with this link, which works once, within a day: http://localhost:${port}${path}\n`,
      );
    }
  },
});
