import { InvalidInput } from "../../../lib/checks";
import { controlChartConstants } from "../../../lib/constants/control-chart-constants";
import { printJson, printTable } from "../output";
import { WrongUsage } from "../refusal";
import { defineVerb } from "../verb";

const COLUMNS = ["n", "d2", "d3", "c4", "A2", "A3", "D3", "D4", "B3", "B4", "E2"] as const;

/** One digit more than printed tables give, so that they can be compared. */
const DECIMALS_SHOWN = 5;

export const verb = defineVerb({
  help: `constants N…   control chart constants for subgroups of N readings

  N        one or more subgroup sizes, whole numbers from 2
  --json   {"constants":[{"n","d2","d3","c4","A2","A3","D3","D4","B3","B4","E2"}]} at full precision

Example: npm run --silent cli -- constants 2 5 10
`,
  options: { json: { type: "boolean" } },
  run({ values, positionals }) {
    if (positionals.length === 0) throw new WrongUsage("constants needs at least one subgroup size.");
    const constants = positionals.map(constantsFor);
    if (values.json) {
      printJson({
        constants: constants.map((row) => Object.fromEntries(COLUMNS.map((name) => [name, row[name]]))),
      });
      return;
    }
    const rows = constants.map((row) =>
      COLUMNS.map((name) => (name === "n" ? String(row.n) : row[name].toFixed(DECIMALS_SHOWN))),
    );
    printTable(COLUMNS, rows);
  },
});

function constantsFor(word: string) {
  if (!/^\d+$/.test(word)) throw new WrongUsage(`a subgroup size is a whole number, not "${word}".`);
  try {
    return controlChartConstants(Number(word));
  } catch (error) {
    if (error instanceof InvalidInput) throw new WrongUsage(`no constants for "${word}": ${error.message}.`);
    throw error;
  }
}
