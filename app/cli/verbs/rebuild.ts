import { rebuild } from "../../../db/commands/rebuild";
import { withDatabase } from "../database";
import { printJson } from "../output";
import { progressLine } from "../progress-line";
import { WrongUsage } from "../refusal";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `rebuild   compute every derived row anew from the measurements

Subgroups, signals and the state of each feature follow from measurements, plan, limits and exclusions. What
people entered is not touched. "differing" counts features whose stored state was not what it should have been.
  --json    {"ok","features","signals","differing"}
`,
  options: { json: { type: "boolean" } },
  async run({ values, positionals }) {
    if (positionals.length > 0) throw new WrongUsage(`rebuild takes no word, but got "${positionals[0]}".`);
    const progress = progressLine();
    const result = await withDatabase((database) =>
      rebuild(database, {
        onFeature: (done, total) => progress.show(`rebuilt ${done} of ${total} features`),
      }),
    );
    progress.end();
    if (values.json) printJson(result);
    else {
      process.stdout.write(
        `Rebuilt ${result.features} features with ${result.signals} signals; ${result.differing} were not as they should have been.\n`,
      );
    }
  },
});
