import { existsSync } from "node:fs";
import { type Verified, verify } from "../../../db/verify";
import { databasePath, withDatabase } from "../database";
import { printJson } from "../output";
import { progressLine } from "../progress-line";
import { Refused, WrongUsage } from "../refusal";
import { defineVerb } from "../verb";

export const verb = defineVerb({
  help: `verify   whether the database and its record are whole

SQLite's own check of the file; the chain of the record, in which any edited, removed or reordered line shows; and
whether everything derived is what the measurements give. Nothing is changed. Exit code 1 when something is wrong.
  --head LINES:DIGEST   the head of the record as it was noted down earlier: those lines must still be there
  --json                {"ok","integrity":[…],"record":{"lines","digest","faults":[…]},"differing":[…]}
`,
  options: { head: { type: "string" }, json: { type: "boolean" } },
  async run({ values }) {
    const head = values.head === undefined ? undefined : headFrom(values.head);
    if (!existsSync(databasePath()))
      throw new Refused({
        file: databasePath(),
        reason: "there is no database here, so there is nothing to verify.",
      });
    const progress = progressLine();
    const result = await withDatabase((database) =>
      verify(database, {
        head,
        onFeature: (done, total) => progress.show(`checked ${done} of ${total} features`),
      }),
    );
    progress.end();
    if (values.json) printJson(result);
    else process.stdout.write(`${inWords(result).join("\n")}\n`);
    if (!result.ok) throw new Refused({ file: databasePath(), reason: faultsOf(result).join(" ") });
  },
});

function headFrom(text: string) {
  const [, lines, digest] = /^(\d+):([0-9a-f]{64})$/.exec(text) ?? [];
  if (lines === undefined || digest === undefined)
    throw new WrongUsage(`--head is "${text}", but a head is LINES:DIGEST as backup and verify print it.`);
  return { lines: Number(lines), digest };
}

function faultsOf({ integrity, record, differing }: Verified): string[] {
  return [
    ...integrity.map((fault) => `The file: ${fault}.`),
    ...record.faults.map((fault) => `The record: ${fault}`),
    ...differing.map((name) => `Feature "${name}" is not what its measurements give; rebuild repairs that.`),
  ];
}

function inWords(result: Verified): string[] {
  const { lines, digest } = result.record;
  return [
    result.ok ? "Whole: the file, the record and what is derived." : "Not whole.",
    `Head of the record: ${lines}:${digest}`,
  ];
}
