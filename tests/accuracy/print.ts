import { type AccuracyRow, accuracyTable } from "./table";

/** One line a set: the digits of its worst figure, and which one that is. */
function summary(rows: readonly AccuracyRow[]): string[][] {
  const sets = new Map<string, AccuracyRow[]>();
  for (const row of rows) {
    const key = `${row.suite}\t${row.set}`;
    sets.set(key, [...(sets.get(key) ?? []), row]);
  }
  return [...sets.values()].map((figures) => {
    const worst = figures.reduce((least, row) => (row.digits < least.digits ? row : least));
    const digits = figures.map((row) => row.digits.toFixed(1)).join(" ");
    return [worst.suite, worst.set, worst.digits.toFixed(1), worst.figure, digits];
  });
}

const heading = ["suite", "set", "fewest", "of", "digits of each figure"];
const lines = [heading, ...summary(accuracyTable())];
const widths = heading.map((_, i) => Math.max(...lines.map((line) => line[i]!.length)));
const table = lines.map((line) =>
  line
    .map((cell, i) => cell.padEnd(widths[i]!))
    .join("  ")
    .trimEnd(),
);
process.stdout.write(`Correct digits against the certified values of NIST's Statistical Reference Datasets (at most 15)

${table.join("\n")}

Few digits come from the sets: SmLs04, SmLs05, NumAcc3 and NumAcc4 carry offsets of 1e6 and 1e7 beside a spread of 0.1,
SmLs07 and SmLs08 of 1e12, which the readings lose on becoming doubles; Longley, Filip and Wampler are nearly dependent.
`);
