import { writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import { backUp } from "../../db/backup";
import { createPart } from "../../db/commands/plan";
import { rebuild } from "../../db/commands/rebuild";
import { undoIntake } from "../../db/commands/undo-intake";
import { openDatabase } from "../../db/connection";
import { importFile } from "../../db/intake/import-file";
import { postMeasurements } from "../../db/intake/post-measurements";
import { previewFile } from "../../db/intake/read-file";
import { migrate } from "../../db/migrate";
import { apiKeyOf, createApiKey } from "../../db/people/api-keys";
import { utc } from "../../lib/intake/zone";

/*
 * Works on a database until it is killed, and says on stdout what it has finished: one line each, written only
 * after the work was acknowledged. What it was doing when it was killed it has not acknowledged.
 *
 *   node kill-victim.mjs FOLDER FIRST    FOLDER of the database, and the number of the first thing to do
 */

const [folder = "", first = "0"] = process.argv.slice(2);
const say = (words: string) => writeSync(1, `${words}\n`);
const actor = (n: number) => ({ accountId: null, at: Date.UTC(2026, 0, 5) + n * 60_000 });

say("begun");
const database = await openDatabase(join(folder, "steadyrest.db"));
await migrate(database);
say("migrated");
const made = await createApiKey(database, {
  entry: { name: `cell ${first}`, scopes: ["post-measurements"], expiresAt: null },
  actor: actor(Number(first)),
});
if (!made.ok) throw new Error(made.message);
const found = await apiKeyOf(database, { secret: made.secret, now: Date.now() });
if (!found.ok) throw new Error("The key that was made is not there.");
const { key } = found;
let lastFile: { n: number; id: number } | null = null;
for (let n = Number(first); ; n++) {
  const rows = Array.from({ length: 40 }, (_, i) => {
    const at = new Date(Date.UTC(2026, 0, 5) + (n * 40 + i) * 60_000).toISOString();
    return `${n}-${i},${at},P-1,bore,10,9.9,10.1,mm,${(10 + ((i * 7 + n) % 11) / 200).toFixed(3)},L-${n}`;
  });
  const path = join(folder, `file-${n}.csv`);
  writeFileSync(
    path,
    `piece,taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value,lot\n${rows.join("\n")}\n`,
  );
  const file = { path, name: `file-${n}.csv` };
  const { mapping } = await previewFile(file, { zone: utc, mapping: null, rows: 0 });
  const outcome = await importFile(database, {
    path,
    fileName: file.name,
    mapping,
    zone: utc,
    newFeatures: { subgroupSize: 5 },
    actor: actor(n),
  });
  if (outcome.state === "done") say(`file ${n} ${outcome.accepted}`);
  const posted = await post(n);
  if (posted.kind === "stored") say(`post ${n}`);
  if (n % 4 === 2 && lastFile?.n === n - 1) {
    const undone = await undoIntake(database, { id: lastFile.id, actor: actor(n) });
    if (undone.ok) say(`undone ${lastFile.n}`);
  }
  // Of a file that came once more, what the first storing brought stays.
  lastFile = outcome.accepted > 0 ? { n, id: outcome.id } : null;
  const part = { number: `K-${n}`, revision: "", name: "", line: "", material: "", expansion: null };
  const saved = await createPart(database, part, actor(n));
  if (saved.ok) say(`part ${n}`);
  if (n % 3 === 0) {
    await backUp(database, { to: join(folder, `copy-${n}.db`) });
    say(`copy ${n}`);
  }
  if (n % 3 === 1) {
    await rebuild(database);
    say(`rebuilt ${n}`);
  }
}

/** Three measurements of one piece, as a machine posts them. */
function post(n: number) {
  const taken_at = new Date(Date.UTC(2026, 6, 1) + n * 60_000).toISOString();
  const rows = Array.from({ length: 3 }, (_, i) => ({
    line: i + 1,
    cells: {
      piece: `post-${n}`,
      taken_at,
      part: "P-2",
      feature: `face ${i}`,
      unit: "mm",
      value: 10 + n / 1000,
    },
  }));
  return postMeasurements(database, {
    key,
    idempotencyKey: `n-${n}`,
    body: `post ${n}`,
    posted: () => ({ rows, refusals: [], paths: rows.map(({ line }) => `measurements[${line - 1}]`) }),
    zone: utc,
    actor: { accountId: null, at: actor(n).at, keyId: key.id },
    now: Date.now(),
  });
}
