import { parseArgs } from "node:util";
import { latestNewsId } from "../../db/queries/news";
import { type Listener, listener } from "./listener";
import { countsOf, FEATURES, type SoakPlant, soakPlant } from "./plant";
import { type Answered, postPiece } from "./poster";
import { type Server, serverOn } from "./server";

/*
 * Posts pieces for some minutes while many streams are open, kills the server now and then and starts it again,
 * and proves from the outside that nothing was lost or doubled: every posted piece is stored once, every alarm
 * reached every stream once, and every stream heard every news in order.
 *
 *   npm run soak -- --minutes 10 --streams 50 --rate 20 --kills 3
 */

const { values } = parseArgs({
  options: {
    minutes: { type: "string", default: "10" },
    streams: { type: "string", default: "50" },
    rate: { type: "string", default: "20" },
    kills: { type: "string", default: "3" },
  },
});
const [minutes, streams, rate] = [Number(values.minutes), Number(values.streams), Number(values.rate)];
const killCount = Number(values.kills);
if (![minutes, streams, rate, killCount].every((value) => value > 0))
  throw new Error("--minutes, --streams, --rate and --kills are numbers above 0.");

const KILLED_AFTER_MS = 3;
const HEARD_WITHIN_MS = 20_000;

const plant = await soakPlant();
const server = await serverOn(plant.folder);
try {
  const faults = await soak(plant, server);
  for (const fault of faults) console.error(`FAULT  ${fault}`);
  console.log(faults.length === 0 ? "Nothing was lost and nothing doubled." : `${faults.length} faults.`);
  process.exitCode = faults.length === 0 ? 0 : 1;
} finally {
  await server.stop();
  await plant.remove();
}

async function soak(plant: SoakPlant, server: Server): Promise<string[]> {
  await server.start();
  const listeners = Array.from({ length: streams }, () =>
    listener(server.address, { cookie: plant.cookie, after: plant.newsBefore }),
  );
  console.log(`${streams} streams, ${rate} pieces of ${FEATURES} features a second, ${minutes} min`);

  const total = Math.round(minutes * 60 * rate);
  const answers: Answered[] = [];
  const [latencies, afterCut]: [number[], number[]] = [[], []];
  let memoryBegin: number | null = null;
  const begun = Date.now();
  let cut: Promise<void> | null = null;
  const kills = Array.from({ length: killCount }, (_, k) => Math.floor((total * (k + 1)) / (killCount + 1)));
  // Pieces follow each other as they do at a line: one machine does not post the next before the last is answered.
  for (let n = 0; n < total; n++) {
    const due = begun + (n * 1000) / rate;
    const wait = due - Date.now();
    if (wait > 0) await new Promise((resolve) => setTimeout(resolve, wait));
    if (n === Math.round(total / 10)) memoryBegin = server.memory();
    const kill = kills.indexOf(n);
    if (kill !== -1) cut = killAndStart(server, (kill + 1) * KILLED_AFTER_MS);
    const { answer, ms, tries } = await postPiece(server.address, {
      secret: plant.secret,
      n,
      takenAt: begun + n * 10,
    });
    answers.push(answer);
    (tries === 1 ? latencies : afterCut).push(ms);
  }
  await cut;

  const lastNews = await latestNewsId(plant.database);
  const limit = Date.now() + HEARD_WITHIN_MS;
  while (Date.now() < limit && listeners.some((each) => each.last() < lastNews))
    await new Promise((resolve) => setTimeout(resolve, 50));
  const memoryEnd = server.memory();
  for (const each of listeners) each.stop();

  const counts = countsOf(plant.database);
  print("posts", [
    `${total} answered, ${answers.filter(({ isRepeated }) => isRepeated).length} of them a second time`,
    `${spread(latencies)} ms from sending to answer`,
  ]);
  print("alarms", [`${counts.alarms.length} raised, ${counts.alarms.length * streams} deliveries`]);
  print("news", [
    `${lastNews - plant.newsBefore} to each stream`,
    `${spread(listeners.flatMap(({ delays }) => delays))} ms from writing to arrival`,
    `${listeners.reduce((sum, each) => sum + each.reconnected, 0)} reconnections`,
  ]);
  print("memory", [
    `${memoryBegin ?? "?"} MB early in the first life, ${memoryEnd ?? "?"} MB at the end of the second`,
  ]);
  return [
    ...faultsOfStore(plant, counts, answers, total),
    ...listeners.flatMap((each, i) =>
      faultsOfStream(each, `stream ${i + 1}`, plant, lastNews, counts.alarms),
    ),
  ];
}

/** Killed so long after a piece was sent, each time a little later: before, within or after its commit. */
async function killAndStart(server: Server, afterMs: number): Promise<void> {
  await new Promise((resolve) => setTimeout(resolve, afterMs));
  await server.kill();
  console.log("The server was killed (SIGKILL) …");
  await new Promise((resolve) => setTimeout(resolve, 1000));
  await server.start();
  console.log("… and started again.");
}

function faultsOfStore(
  plant: SoakPlant,
  counts: ReturnType<typeof countsOf>,
  answers: readonly Answered[],
  total: number,
): string[] {
  const faults: string[] = [];
  const expected = plant.measurementsBefore + total * FEATURES;
  if (counts.integrity !== "ok") faults.push(`integrity_check says ${counts.integrity}.`);
  if (counts.measurements !== expected)
    faults.push(`${counts.measurements} measurements are stored, ${expected} were acknowledged.`);
  if (counts.posts !== total + 1)
    faults.push(`${counts.posts - 1} posts are in the history, ${total} were answered.`);
  for (const [n, { accepted, duplicates }] of answers.entries())
    if (accepted !== FEATURES || duplicates !== 0)
      faults.push(`piece ${n} was answered with ${accepted} accepted and ${duplicates} duplicates.`);
  const answered = answers.flatMap(({ alarms }) => alarms.map(({ id }) => id)).sort((a, b) => a - b);
  if (answered.join() !== counts.alarms.join())
    faults.push(
      `the answers name alarms ${answered.join(", ")}, the database holds ${counts.alarms.join(", ")}.`,
    );
  if (counts.alarms.length < total / 25)
    faults.push(`only ${counts.alarms.length} alarms: the soak proves too little.`);
  return faults;
}

function faultsOfStream(
  { heard }: Listener,
  name: string,
  plant: SoakPlant,
  lastNews: number,
  alarms: readonly number[],
): string[] {
  const faults: string[] = [];
  const ids = heard.map(({ id }) => id);
  const wrong = ids.findIndex((id, i) => id !== plant.newsBefore + 1 + i);
  if (wrong !== -1)
    faults.push(`${name} heard news ${ids[wrong]} where ${plant.newsBefore + 1 + wrong} was next.`);
  if (ids.at(-1) !== lastNews)
    faults.push(`${name} ends with news ${ids.at(-1)}, the latest is ${lastNews}.`);
  const raised = heard.flatMap((item) =>
    item.kind === "alarm" && item.what === "raised" ? [item.alarmId] : [],
  );
  if (raised.sort((a, b) => a - b).join() !== alarms.join())
    faults.push(`${name} heard of ${raised.length} alarms, ${alarms.length} were raised.`);
  return faults;
}

function spread(figures: readonly number[]): string {
  const sorted = [...figures].sort((a, b) => a - b);
  const at = (share: number) =>
    (sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN).toFixed(0);
  return `median ${at(0.5)}, p99 ${at(0.99)}, most ${at(1)}`;
}

function print(what: string, lines: readonly string[]): void {
  console.log(`${what.padEnd(8)}${lines.join("; ")}`);
}
