import { expect, test } from "vitest";
import { sourceFiles } from "./source-files";

/*
 * Every command that writes also writes a line of the record, or stands here with the reason why it need not.
 */
const NOT_RECORDED: Record<string, string> = {
  "db/commands/accounts.ts openSetUp":
    "prints a link on the terminal of whoever runs the server; using it is recorded",
  "db/commands/accounts.ts createSession": "signing in changes nothing of the plant",
  "db/commands/alarms.ts endShelvings": "the program's own step in an alarm's append-only history",
  "db/commands/drift.ts scanPlant": "derived",
  "db/commands/gauges.ts createGauge": "recorded by `store`",
  "db/commands/intakes.ts failIntake": "the history of intakes says how it ended; nothing was stored",
  "db/commands/intakes.ts failLeftIntakes": "the history of intakes says how they ended; nothing was stored",
  "db/commands/intakes.ts noteNotBegun": "the history of intakes says that they were not read",
  "db/commands/lease.ts holdLease": "the program's own",
  "db/commands/lease.ts giveUpLease": "the program's own",
  "db/commands/messages.ts noteTry": "the program's own",
  "db/commands/messages.ts pruneMessages": "the program's own",
  "db/commands/news.ts pruneNews": "the program's own",
  "db/commands/rebuild.ts rebuild": "derived",
  "db/commands/rebuild.ts differingFeatures": "looks, and takes everything back",
  "db/commands/rebuild.ts rebuildOutdated": "derived",
  "db/commands/sources.ts addCauses": "the demo's list of causes to choose from",
  "db/intake/posts-in-turn.ts inTurn": "what it stores is recorded by `recordIntake`",
  "db/intake/post-measurements.ts pruneAnswers": "the program's own",
  "db/intake/qif.ts readQif": "writes to a parser, not to the database",
  "db/intake/store-sheet.ts storeSheet": "recorded by `recordIntake`",
  "db/people/guesses.ts admitGuess":
    "a hold-up is recorded by who asked; single guesses would flood the record",
};

test("what people and machines change goes into the record", () => {
  const silent = sourceFiles()
    .filter(({ path }) => /^db\/(commands|people|intake)\/.*\.ts$/.test(path))
    .flatMap(({ path, text }) => silentWriters(text).map((name) => `${path} ${name}`));
  expect(silent.filter((name) => !Object.hasOwn(NOT_RECORDED, name))).toEqual([]);
  // One that no longer writes in silence leaves the list.
  expect(Object.keys(NOT_RECORDED).filter((name) => !silent.includes(name))).toEqual([]);
});

test("the check itself finds a command that writes in silence, and lets pass one that records", () => {
  const head = "export async function change(database: Database) {\n";
  expect(silentWriters(`${head}  return write(database, (c) => c.orm.insert(x).run());\n}\n`)).toEqual([
    "change",
  ]);
  expect(
    silentWriters(`${head}  return write(database, (c) => {\n    record(c, actor, {});\n  });\n}\n`),
  ).toEqual([]);
  expect(silentWriters(`${head}  return 1;\n}\n`)).toEqual([]);
});

/** Exported functions with a transaction of their own and no line of the record in their file's text of them. */
function silentWriters(text: string): string[] {
  const heads = [...text.matchAll(/^export (?:async )?function (\w+)/gm)];
  return heads.flatMap((head, i) => {
    const body = text.slice(head.index, heads[i + 1]?.index ?? text.length);
    const writes = /\bwrite\(/.test(body);
    const records = /\brecord\w*\(|\b(add|addPart|addFeature)\(\s*connection/.test(body);
    return writes && !records ? [head[1] ?? ""] : [];
  });
}
