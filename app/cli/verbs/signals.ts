import { decimalFault } from "../../../lib/intake/numbers";
import { evaluateRules, type Firing } from "../../../lib/rules/judge";
import { type Cells, readCsvColumns } from "../csv-columns";
import { printJson, printTable } from "../output";
import { Refused, WrongUsage } from "../refusal";
import { rulesForHelp, rulesNamed } from "../rules-option";
import { defineVerb } from "../verb";

const PHASE = "phase";

export const verb = defineVerb({
  help: `signals FILE --column NAME --rules slug,…   run rules on values that are already standardised

  FILE      CSV with a header; one point a row, in time order
  --column  the column of z = (point − centre)/its sigma; an empty cell is an excluded point, which the
            rules pass over as if it had never been
  --rules   the rules, separated by commas:
${rulesForHelp().replaceAll(/^/gm, "          ")}
  --json    {"signals":[{"rule","at","members"}]} with 0-based row indexes; members are those of the pattern

Where a column named ${PHASE} is there, a new phase begins where its value changes, and the rules forget
what came before. A pattern that goes on is a signal at every further point.
`,
  options: { column: { type: "string" }, rules: { type: "string" }, json: { type: "boolean" } },
  async run({ values, positionals }) {
    const [file, ...more] = positionals;
    if (file === undefined || more.length > 0) {
      throw new WrongUsage(`signals takes one file, not ${positionals.length}.`);
    }
    if (values.column === undefined) throw new WrongUsage("signals needs --column NAME.");
    if (values.rules === undefined) throw new WrongUsage("signals needs --rules slug,…");
    const rules = rulesNamed(values.rules);

    const { z, phaseStarts } = await readPoints(file, values.column);
    const firings = evaluateRules(rules, z, phaseStarts);
    if (values.json) {
      printJson({ signals: firings.map(({ rule, at, members }) => ({ rule, at, members })) });
    } else {
      print(firings, z.length);
    }
  },
});

async function readPoints(
  file: string,
  column: string,
): Promise<{ z: (number | null)[]; phaseStarts: number[] }> {
  const rows = await readCsvColumns(file, [{ name: column }, { name: PHASE, optional: true }]);
  const z = rows.map((row) => standardised(file, column, row));
  const phaseStarts = rows.flatMap(({ cells }, i) =>
    i > 0 && cells[1] !== rows[i - 1]?.cells[1] ? [i] : [],
  );
  return { z, phaseStarts };
}

function standardised(file: string, field: string, { line, cells }: Cells): number | null {
  const text = cells[0] ?? "";
  if (text === "") return null;
  const z = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : Number.NaN;
  if (Number.isFinite(z)) return z;
  throw new Refused({ file, line, field, reason: decimalFault(text, ".") });
}

function print(firings: readonly Firing[], points: number): void {
  if (firings.length === 0) {
    process.stdout.write(`No signals among ${points} points.\n`);
    return;
  }
  printTable(
    ["at", "rule", "members"],
    firings.map(({ at, rule, members }) => [String(at), rule, members.join(" ")]),
  );
}
