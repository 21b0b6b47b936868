import { spawn } from "node:child_process";
import { once } from "node:events";
import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import BetterSqlite3 from "better-sqlite3";
import { connectionOf, type Database, openDatabase } from "../../db/connection";
import { measurementCount } from "../../db/measurements/store";
import { migrate } from "../../db/migrate";
import { verify } from "../../db/verify";
import { randomFrom } from "../fuzz/mutate";

/*
 * Kills a process (SIGKILL) at random moments of its work on a database: migrating, taking files in,
 * posting, undoing, changing the plan, copying, rebuilding. After each, what it had acknowledged must be there, what it had not must be there
 * as a whole or not at all, and the file, the record and what is derived must be whole.
 *
 * Every tenth database is new, so that its first migration is hit too; every other of these was written by an older
 * version, so that its upgrade is hit: then all old migrations hold or all new ones, and what was there stays. This shows what the death of a process
 * does; a loss of power also needs a disk that keeps what it says it has written.
 */

const { values } = parseArgs({
  options: {
    kills: { type: "string", default: "200" },
    seed: { type: "string", default: "1" },
    "fresh-every": { type: "string", default: "10" },
  },
});
const KILLS = Number(values.kills);
const random = randomFrom(Number(values.seed));
const ROWS_A_FILE = 40;
const ROWS_A_POST = 3;
const FRESH_EVERY = Number(values["fresh-every"]);
const OLD_PARTS = ["OLD-1", "OLD-2", "OLD-3"];

let folder = "";
let next = 0;
/** Numbers acknowledged in this folder. */
let files = new Set<number>();
let parts = new Set<number>();
let posts = new Set<number>();
let undone = new Set<number>();
let copies = new Set<number>();
/** How many migrations the database had before the program came to it; null for one that was not there. */
let older: number | null = null;
let fresh = 0;
const moments: Record<string, number> = {};
const faults: string[] = [];

const begun = performance.now();
for (let kill = 0; kill < KILLS && faults.length === 0; kill++) {
  if (kill % FRESH_EVERY === 0) await startAnew();
  await workAndKill(kill % FRESH_EVERY === 0 ? random() * 200 : random() * 1_200);
  await look(kill);
  if (process.stderr.isTTY) process.stderr.write(`\r${kill + 1} of ${KILLS}`);
}
if (folder) rmSync(folder, { recursive: true, force: true });
const during = Object.entries(moments).map(([what, count]) => `${count} ${what}`);
const seconds = ((performance.now() - begun) / 1000).toFixed(0);
console.log(
  `${KILLS} kills, seed ${values.seed}, ${seconds} s (${during.join(", ")}); ${faults.length} faults.`,
);
for (const fault of faults) console.error(fault);
process.exitCode = faults.length > 0 ? 1 : 0;

async function startAnew(): Promise<void> {
  if (folder) rmSync(folder, { recursive: true, force: true });
  folder = mkdtempSync(join(tmpdir(), "steadyrest-kill-"));
  next = 0;
  files = new Set();
  parts = new Set();
  posts = new Set();
  undone = new Set();
  copies = new Set();
  older = null;
  if (fresh++ % 2 === 1) older = await olderDatabase();
}

/** A database as an older version has left it, with parts in it; how many migrations it has. */
async function olderDatabase(): Promise<number> {
  const journal = JSON.parse(readFileSync("db/migrations/meta/_journal.json", "utf8")) as {
    entries: unknown[];
  };
  const known = 1 + Math.floor(random() * (journal.entries.length - 1));
  const migrations = join(folder, "migrations");
  cpSync("db/migrations", migrations, { recursive: true });
  const first = { ...journal, entries: journal.entries.slice(0, known) };
  writeFileSync(join(migrations, "meta/_journal.json"), JSON.stringify(first));
  const database = await openDatabase(join(folder, "steadyrest.db"));
  await migrate(database, { folder: migrations });
  const insert = connectionOf(database).sqlite.prepare("insert into part (number) values (?)");
  for (const number of OLD_PARTS) insert.run(number);
  await database.close();
  return known;
}

/** Called before the tables are brought up to date: an upgrade that was broken off has left the old database. */
function checkUpgrade(database: Database, say: (what: string) => void): void {
  if (older === null) return;
  const { sqlite } = connectionOf(database);
  const done = sqlite.prepare("select count(*) from __drizzle_migrations").pluck().get() as number;
  const all = readdirSync("db/migrations").filter((name) => name.endsWith(".sql")).length;
  const state = done === older ? "old after a broken upgrade" : "upgraded";
  moments[state] = (moments[state] ?? 0) + 1;
  if (done !== older && done !== all)
    say(`${done} migrations hold, neither the ${older} old ones nor all ${all}.`);
  if (sqlite.pragma("integrity_check", { simple: true }) !== "ok")
    say("the file is not whole before the upgrade.");
  for (const name of readdirSync(folder).filter((each) => /\.before-\d+(-\d+)?$/.test(each))) {
    const copy = new BetterSqlite3(join(folder, name), { readonly: true });
    const whole = copy.pragma("integrity_check", { simple: true });
    const kept = copy.prepare("select number from part order by number").pluck().all();
    copy.close();
    if (whole !== "ok" || kept.join() !== OLD_PARTS.join())
      say(`${name}, the copy before the upgrade, is not whole.`);
  }
}

async function workAndKill(ms: number): Promise<void> {
  const victim = spawn(
    process.execPath,
    [join(process.cwd(), ".build", "kill-victim.mjs"), folder, String(next)],
    {
      stdio: ["ignore", "pipe", "inherit"],
    },
  );
  const closed = once(victim, "close");
  let said = "";
  victim.stdout.setEncoding("utf8").on("data", (text: string) => {
    said += text;
  });
  // Before this line it is only Node that starts.
  await Promise.race([once(victim.stdout, "data"), closed]);
  await new Promise((resolve) => setTimeout(resolve, ms));
  victim.kill("SIGKILL");
  const [code, signal] = (await closed) as [number | null, string | null];
  if (signal !== "SIGKILL") faults.push(`The process ended by itself with code ${code}.`);
  const lines = said.split("\n").slice(0, -1);
  for (const line of lines) {
    const [what, number] = line.split(" ");
    if (what === "file") files.add(Number(number));
    if (what === "part") parts.add(Number(number));
    if (what === "post") posts.add(Number(number));
    if (what === "undone") undone.add(Number(number));
    if (what === "copy") copies.add(Number(number));
  }
  const last = lines.at(-1)?.split(" ")[0] ?? "nothing yet";
  const after = `after "${last}"`;
  moments[after] = (moments[after] ?? 0) + 1;
  next = Math.max(next, ...[...files, ...posts, ...parts].map((n) => n + 1), next + 1);
}

async function look(kill: number): Promise<void> {
  const path = join(folder, "steadyrest.db");
  if (!existsSync(path)) return;
  const database = await openDatabase(path);
  const say = (what: string) => faults.push(`Kill ${kill}: ${what}`);
  try {
    checkUpgrade(database, say);
    await migrate(database);
    const whole = await verify(database);
    if (!whole.ok) say(`not whole: ${JSON.stringify(whole)}`);
    checkKept(database, say);
  } finally {
    await database.close();
  }
  await checkCopies(say);
}

function checkKept(database: Database, say: (what: string) => void): void {
  const { sqlite } = connectionOf(database);
  const told = sqlite
    .prepare("select kind, file, state, accepted from intake where state in ('done', 'undone')")
    .all() as { kind: string; file: string; state: string; accepted: number }[];
  const done = told.filter(({ state }) => state === "done");
  const doneFiles = new Set(done.filter(({ kind }) => kind === "file").map(({ file }) => file));
  const takenBack = new Set(told.filter(({ state }) => state === "undone").map(({ file }) => file));
  for (const n of files) {
    const name = `file-${n}.csv`;
    // Undone, and the acknowledgement of that did not come any more.
    const mayBeUndone = n % 4 === 1 && takenBack.has(name);
    if (!doneFiles.has(name) && !mayBeUndone) say(`file ${n} was acknowledged and is not there.`);
  }
  for (const n of undone)
    if (!takenBack.has(`file-${n}.csv`) || doneFiles.has(`file-${n}.csv`))
      say(`the undoing of file ${n} was acknowledged, and it is there.`);
  const answers = new Set(
    sqlite.prepare("select idempotency_key from post_answer").pluck().all() as string[],
  );
  for (const n of posts) if (!answers.has(`n-${n}`)) say(`post ${n} was acknowledged and is not there.`);
  const numbers = new Set(sqlite.prepare("select number from part").pluck().all() as string[]);
  if (older !== null)
    for (const number of OLD_PARTS)
      if (!numbers.has(number)) say(`part ${number} of the older database is gone.`);
  for (const n of parts) if (!numbers.has(`K-${n}`)) say(`part ${n} was acknowledged and is not there.`);
  const kept = measurementCount(connectionOf(database));
  const accepted = done.reduce((sum, each) => sum + each.accepted, 0);
  const whole = doneFiles.size * ROWS_A_FILE + answers.size * ROWS_A_POST;
  // A file that was stored but not acknowledged comes once more, and then adds nothing.
  if (kept !== accepted || accepted !== whole)
    say(
      `${doneFiles.size} files of ${ROWS_A_FILE} and ${answers.size} posts of ${ROWS_A_POST} rows are done, ${accepted} rows were accepted, and ${kept} are kept: ${JSON.stringify(told)}`,
    );
  const lines = sqlite
    .prepare("select subject from audit where action = 'enter part'")
    .pluck()
    .all() as string[];
  for (const number of numbers)
    if (!OLD_PARTS.includes(number) && !lines.includes(number))
      say(`part ${number} is there and not in the record.`);
}

/** A copy that has its name is whole, acknowledged or not; looked at once. */
async function checkCopies(say: (what: string) => void): Promise<void> {
  for (const n of copies)
    if (!existsSync(join(folder, `copy-${n}.db`))) say(`copy ${n} was acknowledged and is not there.`);
  for (const name of readdirSync(folder).filter((each) => /^copy-\d+\.db$/.test(each))) {
    const copy = await openDatabase(join(folder, name));
    try {
      const whole = await verify(copy);
      if (!whole.ok) say(`${name} is not whole: ${JSON.stringify(whole)}`);
    } finally {
      await copy.close();
    }
    rmSync(join(folder, name));
    copies.delete(Number(/\d+/.exec(name)?.[0]));
  }
}
