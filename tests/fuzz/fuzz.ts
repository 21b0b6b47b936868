import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { readBody } from "../../app/api/v1/measurements/body";
import { connectionOf, type Database, openDatabase } from "../../db/connection";
import { importFile } from "../../db/intake/import-file";
import { postMeasurements } from "../../db/intake/post-measurements";
import { previewFile, readMeasurementFile } from "../../db/intake/read-file";
import { measurementCount } from "../../db/measurements/store";
import { migrate } from "../../db/migrate";
import { apiKeyOf, createApiKey } from "../../db/people/api-keys";
import { verify } from "../../db/verify";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { untimedStart } from "../../lib/intake/untimed";
import { utc } from "../../lib/intake/zone";
import { mutated, randomFrom } from "./mutate";
import { workbookParts, zipOf } from "./workbook";

/*
 * Throws broken inputs at what reads files and posted bodies. Each must be read or be refused in words
 * (UnreadableFile, or an answer that says why); anything else thrown is a fault of the program. Every so often
 * an input is also taken into a database: then all that was counted as accepted is there, or nothing is.
 */

const { values } = parseArgs({
  options: { inputs: { type: "string", default: "200000" }, seed: { type: "string", default: "1" } },
});
const INPUTS = Number(values.inputs);
const SEED = Number(values.seed);
const STORE_EVERY = 100;
const AT = Date.UTC(2026, 0, 6);

type Kind = "csv" | "json" | "qif" | "xlsx";
/** Shares by what an input costs: a workbook takes a hundred times as long as a line of JSON. */
const SHARES: readonly [Kind, number][] = [
  ["json", 0.55],
  ["csv", 0.43],
  ["qif", 0.01],
  ["xlsx", 0.01],
];

const folder = mkdtempSync(join(existsSync("/dev/shm") ? "/dev/shm" : tmpdir(), "steadyrest-fuzz-"));
const ROWS = [
  [
    "piece",
    "taken_at",
    "part",
    "feature",
    "nominal",
    "lower_tolerance",
    "upper_tolerance",
    "unit",
    "value",
    "lot",
    "fixture",
  ],
  ...Array.from({ length: 12 }, (_, i) => [
    `S-${i}`,
    `2026-01-05T08:${10 + i}:00Z`,
    "P-1",
    i % 2 ? "bore" : "face",
    "10",
    "9.9",
    "10.1",
    "mm",
    `${10 + (i % 5) / 100}`,
    "L-1",
    "FX-1",
  ]),
];
const PARTS = workbookParts(ROWS);
const CSV = [
  Buffer.from(ROWS.map((row) => row.join(",")).join("\n")),
  Buffer.from(ROWS.map((row) => row.map((cell) => `"${cell.replace(".", ",")}"`).join(";")).join("\r\n")),
  ...["cell-a-friday.csv", "line-b-friday.csv"].map((name) =>
    readFileSync(join("seed/files", name)).subarray(0, 3_000),
  ),
];
const QIF = readFileSync("tests/reference/qif/all-in-one.qif").subarray(0, 60_000);
const JSON_BODY = Buffer.from(
  JSON.stringify({
    pieces: [
      {
        piece: "0001",
        taken_at: "2026-03-02T06:10:00Z",
        part: "P-100",
        lot: "L-1",
        fixture: "FX-1",
        measurements: [
          {
            feature: "Bore diameter",
            value: 25.003,
            unit: "mm",
            nominal: 25,
            lower_tolerance: 24.98,
            upper_tolerance: 25.02,
          },
          { feature: "Bore depth", value: 40.012, tool: "T-2" },
        ],
      },
    ],
  }),
);

const tally = { read: 0, refused: 0, stored: 0, rows: 0 };
const faults: string[] = [];
const random = randomFrom(SEED);
const database = await openDatabase(":memory:");
await migrate(database);
const keyMade = await createApiKey(database, {
  entry: { name: "fuzz", scopes: ["post-measurements"], expiresAt: null },
  actor: { accountId: null, at: Date.UTC(2026, 0, 5) },
});
if (!keyMade.ok) throw new Error(keyMade.message);
const found = await apiKeyOf(database, { secret: keyMade.secret, now: Date.now() });
if (!found.ok) throw new Error("The key is not there.");
const { key } = found;

const begun = performance.now();
for (let i = 0; i < INPUTS && faults.length < 20; i++) {
  const kind = kindAt(random());
  const bytes = inputOf(kind);
  const store = i % STORE_EVERY === 0;
  try {
    if (kind === "json") await tryBody(bytes, store);
    else await tryFile(kind, bytes, store);
  } catch (error) {
    if (error instanceof UnreadableFile) tally.refused++;
    else fault(i, kind, bytes, error);
  }
  if (process.stderr.isTTY && i % 1000 === 0) process.stderr.write(`\r${i} of ${INPUTS}`);
}
const whole = await verify(database);
if (!whole.ok) faults.push(`The database is not whole afterwards: ${JSON.stringify(whole)}`);
rmSync(folder, { recursive: true, force: true });
const seconds = ((performance.now() - begun) / 1000).toFixed(0);
console.log(
  `${INPUTS} inputs, seed ${SEED}, ${seconds} s: ${tally.read} read, ${tally.refused} refused in words, ${tally.stored} also taken in with ${tally.rows} measurements; ${faults.length} faults.`,
);
for (const each of faults) console.error(each);
process.exitCode = faults.length > 0 ? 1 : 0;

function kindAt(share: number): Kind {
  let sum = 0;
  for (const [kind, part] of SHARES) {
    sum += part;
    if (share < sum) return kind;
  }
  return "csv";
}

function inputOf(kind: Kind): Buffer {
  if (kind === "json") return mutated(JSON_BODY, random);
  if (kind === "qif") return mutated(QIF, random);
  if (kind === "csv") return mutated(CSV[Math.floor(random() * CSV.length)] as Buffer, random);
  if (random() < 0.3) return mutated(zipOf(PARTS), random);
  const hit = Math.floor(random() * PARTS.length);
  return zipOf(PARTS.map((part, i) => (i === hit ? { ...part, bytes: mutated(part.bytes, random) } : part)));
}

async function tryFile(kind: Kind, bytes: Buffer, store: boolean): Promise<void> {
  const file = { path: join(folder, "input"), name: `../../${kind}/input.${kind}` };
  writeFileSync(file.path, bytes);
  const preview = await previewFile(file, { zone: utc, mapping: null, rows: 5 });
  const sink = { batch: () => {}, refusal: () => {}, notice: () => {} };
  if (preview.problems.length === 0) await readMeasurementFile(file, preview.mapping, { zone: utc }, sink);
  tally.read++;
  if (!store || preview.problems.length > 0) return;
  const before = measurements(database);
  const outcome = await importFile(database, {
    ...file,
    fileName: file.name,
    mapping: untimedStart(preview.mapping, AT),
    zone: utc,
    newFeatures: { subgroupSize: 5 },
    actor: { accountId: null, at: AT },
  });
  expectStored(
    measurements(database) - before,
    outcome.state === "done" ? outcome.accepted : 0,
    outcome.duplicates,
  );
}

async function tryBody(bytes: Buffer, store: boolean): Promise<void> {
  let json: unknown;
  try {
    json = JSON.parse(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    tally.refused++;
    return;
  }
  const read = readBody(json);
  if (!read.ok) {
    tally.refused++;
    return;
  }
  tally.read++;
  if (!store) return;
  const before = measurements(database);
  await postMeasurements(database, {
    key,
    idempotencyKey: null,
    body: bytes.toString(),
    posted: () => read.posted,
    zone: utc,
    actor: { accountId: null, at: AT },
    now: Date.now(),
  });
  expectStored(measurements(database) - before, read.posted.rows.length, read.posted.rows.length);
}

/** More than was accepted, or fewer where none was there already, is a partial store. */
function expectStored(added: number, accepted: number, there: number): void {
  tally.stored++;
  tally.rows += added;
  if (added < 0 || added > accepted || (there === 0 && added !== accepted))
    throw new Error(`${accepted} rows were accepted, ${there} were there, and ${added} were added.`);
}

function measurements(plant: Database): number {
  return measurementCount(connectionOf(plant));
}

function fault(index: number, kind: Kind, bytes: Buffer, error: unknown): void {
  const words = error instanceof Error ? (error.stack ?? error.message) : String(error);
  faults.push(
    `Input ${index} (${kind}), base64 of its start ${bytes.subarray(0, 300).toString("base64")}: ${words}`,
  );
}
