import { listParts } from "../../../db/queries/features";
import { loadDemo } from "../../../seed/load";
import { databasePath, withDatabase } from "../database";
import { printJson } from "../output";
import { progressLine } from "../progress-line";
import { Refused } from "../refusal";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `demo   load the demo plant into an empty database

A fictional shop with four parts, sixty features and thirteen weeks of measurements.
  --if-empty  do nothing, without complaint, when the database holds something
  --json      {"ok","files","measurements","features","limits"}
`,
  options: { "if-empty": { type: "boolean" }, json: { type: "boolean" } },
  async run({ values }) {
    const progress = progressLine();
    const report = await withDatabase(async (database) => {
      if ((await listParts(database)).length > 0) {
        if (values["if-empty"]) return null;
        throw new Refused({
          file: databasePath(),
          reason:
            "the database holds a plant already. The demo goes into an empty one: set STEADYREST_DATA to a new folder.",
        });
      }
      return loadDemo(database, { onFile: (done, total) => progress.show(`file ${done} of ${total}`) });
    });
    progress.end();
    if (values.json)
      printJson({ ok: true, ...(report ?? { files: 0, measurements: 0, features: 0, limits: 0 }) });
    else if (report) {
      process.stdout.write(
        `The demo plant is loaded: ${report.measurements} measurements of ${report.features} features from ${report.files} files, ${report.limits} sets of limits frozen.\n`,
      );
    }
  },
});
