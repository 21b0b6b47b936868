import { on } from "node:events";
import { existsSync } from "node:fs";
import { join, resolve } from "node:path";
import type { ScannerMessage, ScanOrder } from "../../app/jobs/scanner";
import { scannerThread } from "../../app/jobs/scans";
import { bundle } from "../../app/start/bundle.mjs";
import { openDatabase } from "../../db/connection";
import { listFeatures, listParts } from "../../db/queries/features";
import { featureHistory, namesOf } from "../../db/queries/history";
import { scanForDrift } from "../../lib/drift/drift-scan";
import type { CodeOf, MeasuredPart } from "../../lib/drift/measured-part";
import { ScanMemory } from "../../lib/drift/scan-memory";
import { SOURCE_KINDS } from "../../lib/measurements/series";
import type { Bench, BenchOptions, BenchResult } from "./benches";
import { commandLine } from "./command-line";
import { type Plant, plantOf, writeCsv } from "./drift-data";
import { delaysWhileScanning } from "./scanning-beside";
import { medianOf, type Timing, timed, timedProgram } from "./timing";

const SEED = 20_260_105;
const ROWS = 1_000_000;
const LOTS = 60;
const PEER = "tests/bench/peers/drift.py";

export const drift: Bench = {
  times:
    "the scan of all sources: from memory, from the database, after a new lot; beside analyses of variance, and a server that answers meanwhile",
  async run(options): Promise<BenchResult> {
    const plant = plantOf(options.rows ?? ROWS, { seed: SEED, lots: LOTS });
    const csv = join(options.folder, "measurements.csv");
    await writeCsv(plant, csv);
    const ours = [await fromArrays(plant, options), await newLot(plant, options)];
    const { timing: stored, delays } = await fromDatabase(csv, options);
    const [early, arriving] = await lotsArriving(plant, options);
    const command = timedProgram(
      "command line, CSV to JSON",
      options.runs,
      commandLine("drift", csv, "--json"),
    );
    const { timings: peers, remarks } = peersBeside(csv, options);
    const timings = [...ours, stored, early, arriving, ...(command.ok ? [command.timing] : []), ...peers];
    if (!command.ok) remarks.push(command.reason);
    return {
      about: `${plant.rows.toLocaleString("en")} measurements, 300 features, 6 fixtures, 20 tools, ${LOTS} lots, one fixture moved; medians of ${options.runs} runs`,
      timings,
      ratios: [
        ...peers.flatMap((peer) => [
          ratio(stored, peer),
          ...(command.ok ? [ratio(command.timing, peer)] : []),
        ]),
        ...delays,
        { label: `clock, ${arriving.label}`, value: medianOf(arriving.clock), bar: "under 0.3" },
      ],
      remarks: [
        ...remarks,
        "The scans in this process include no start of a program; the peers include theirs and reading the file.",
      ],
    };
  },
};

const BARS: Record<string, string> = {
  [peerLabel("numpy")]: "under 1.5",
  [peerLabel("statsmodels")]: "under 0.25",
};

function ratio(own: Timing, peer: Timing) {
  const bar = own.label === STORED ? BARS[peer.label] : undefined;
  return {
    label: `processor time, ${own.label} / ${peer.label}`,
    value: medianOf(own.processor) / medianOf(peer.processor),
    ...(bar !== undefined && { bar }),
  };
}

function peerLabel(engine: string): string {
  return `peer, ${engine}`;
}

/** Parts are known by their object; anew for each run, so that nothing is remembered. */
function anew({ parts }: Plant): MeasuredPart[] {
  return parts.map((part) => ({ ...part }));
}

function fromArrays(plant: Plant, { runs }: BenchOptions): Promise<Timing> {
  const { codeOf } = plant;
  return timed("scan, from typed arrays", runs, {
    prepare: () => anew(plant),
    work: (parts) => scanForDrift(parts, { codeOf }),
  });
}

/** One part gets its last lot; the scan before it is remembered. */
function newLot(plant: Plant, { runs, rows }: BenchOptions): Promise<Timing> {
  const { codeOf } = plant;
  const before = plantOf(rows ?? ROWS, { seed: SEED, lots: LOTS - 1 });
  return timed("scan after a new lot", runs, {
    prepare: () => {
      const memory = new ScanMemory();
      const [, ...others] = anew(before);
      scanForDrift([{ ...before.parts[0]! }, ...others], { codeOf, memory });
      return { memory, parts: [{ ...plant.parts[0]! }, ...others] };
    },
    work: ({ memory, parts }) => scanForDrift(parts, { codeOf, memory }),
  });
}

const STORED = "scan, read from the database";

async function fromDatabase(csv: string, { folder, runs }: BenchOptions) {
  const data = join(folder, "data");
  const taken = timedProgram("intake", 1, commandLine("intake", csv), { STEADYREST_DATA: data });
  if (!taken.ok) throw new Error(taken.reason);
  const database = await openDatabase(join(data, "steadyrest.db"));
  try {
    const timing = await timed(STORED, runs, {
      prepare: () => undefined,
      work: async () => {
        const { parts, codeOf } = await storedParts(database);
        scanForDrift(parts, { codeOf });
      },
    });
    return { timing, delays: await delaysWhileScanning(database) };
  } finally {
    await database.close();
  }
}

/**
 * Lot after lot of one part is brought in, and scanned as in the running program: by the thread that stays between
 * scans, from the order to what is stored. Before the first of them it has scanned the plant once; to the compiler it
 * takes some lots to know what is asked for often.
 */
async function lotsArriving(plant: Plant, { folder, runs }: BenchOptions): Promise<[Timing, Timing]> {
  await bundle(process.cwd());
  const data = join(folder, "arriving");
  const bringIn = async (name: string, holds: (part: number, lot: number) => boolean) => {
    const csv = join(folder, name);
    await writeCsv(plant, csv, holds);
    const taken = timedProgram("intake", 1, commandLine("intake", csv), {
      STEADYREST_DATA: data,
    });
    if (!taken.ok) throw new Error(taken.reason);
  };
  await bringIn("before.csv", (part, lot) => part > 1 || lot <= LOTS - 2 * runs);
  const databasePath = join(data, "steadyrest.db");
  const thread = scannerThread(databasePath);
  const scan = async () => {
    thread.postMessage({ now: Date.now() } satisfies ScanOrder);
    for await (const [message] of on(thread, "message") as AsyncIterable<[ScannerMessage]>) {
      if (message.say === "broken") throw new Error(message.message);
      if (message.say === "done") return;
    }
  };
  let last = LOTS - 2 * runs;
  const lots = (label: string) =>
    timed(label, runs, {
      prepare: () => {
        last++;
        return bringIn(`lot-${last}.csv`, (part, lot) => part === 1 && lot === last);
      },
      work: scan,
    });
  try {
    await scan();
    return [
      await lots("first lots after a start: read, scanned and stored"),
      await lots("a new lot: read, scanned and stored"),
    ];
  } finally {
    await thread.terminate();
  }
}

async function storedParts(database: Parameters<typeof listParts>[0]) {
  const parts: MeasuredPart[] = [];
  const ids = new Map<Parameters<CodeOf>[0], Set<number>>();
  const kinds = ["lot", ...SOURCE_KINDS] as const;
  for (const kind of kinds) ids.set(kind, new Set());
  for (const part of await listParts(database)) {
    const features = await listFeatures(database, { partId: part.id });
    const histories = await Promise.all(
      features.map(async ({ id }) => (await featureHistory(database, id))!),
    );
    for (const { series } of histories) for (const kind of kinds) addAll(ids.get(kind)!, series[kind]);
    parts.push({
      part: part.number,
      features: histories.map(({ feature, series }) => ({
        name: feature.name,
        kind: feature.kind,
        nominal: feature.nominal,
        lower: feature.plan.tolerance.lower,
        upper: feature.plan.tolerance.upper,
        unit: feature.unit,
        resolution: feature.resolution,
        series,
      })),
    });
  }
  const names = new Map<string, Map<number, string>>();
  for (const kind of kinds) names.set(kind, await namesOf(database, kind, ids.get(kind)!));
  const codeOf: CodeOf = (kind, id) => names.get(kind)!.get(id) ?? "";
  return { parts, codeOf };
}

/** Ids come in runs. */
function addAll(into: Set<number>, ids: Uint32Array): void {
  for (let i = 0; i < ids.length; i++) if (i === 0 || ids[i] !== ids[i - 1]) into.add(ids[i]!);
}

/** Analyses of variance feature by feature, as most people would script them. */
function peersBeside(csv: string, { peer = PEER, python, runs, folder }: BenchOptions) {
  const timings: Timing[] = [];
  const remarks: string[] = [];
  if (!existsSync(peer)) return { timings, remarks: [`No peer: there is no file ${resolve(peer)}.`] };
  for (const engine of ["numpy", "statsmodels"]) {
    const command = [python, peer, csv, join(folder, "peer.json"), "--engine", engine];
    const outcome = timedProgram(peerLabel(engine), engine === "numpy" ? runs : 1, command);
    if (outcome.ok) timings.push(outcome.timing);
    else remarks.push(outcome.reason);
  }
  return { timings, remarks };
}
