import { and, eq } from "drizzle-orm";
import { type DriftFlag, type DriftScan, scanForDrift } from "../../lib/drift/drift-scan";
import { answerTo, earliestOnset, type FlagChanges, flagChanges } from "../../lib/drift/flag-life";
import { ScanMemory } from "../../lib/drift/scan-memory";
import type { ScanStep } from "../../lib/drift/scan-step";
import { type ScatterAsked, scatterHere } from "../../lib/drift/scatter";
import { scanToText } from "../../lib/drift/stored-scan";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Connection, connectionOf, type Database, write } from "../connection";
import { latestFlags, openFlags, setAsideBy } from "../queries/drift";
import { eventsUpTo, measuredPlant } from "../queries/measured-plant";
import { PlantMemory } from "../queries/plant-memory";
import { driftFlag, driftScan } from "../schema-drift";
import { type Actor, record } from "./audit";
import { tell } from "./news";

/** Share of a scan's time that reading the measurements takes. */
const READ = 0.2;

export type ScanDone = {
  flags: number;
  measurements: number;
  durationMs: number;
  /** The scan before was of the same measurements and found something else: one of the two is wrong. */
  differs: boolean;
};

/**
 * Scans the plant and stores what was found; flags open, go on and end by it. Seconds of arithmetic for a large plant,
 * so it belongs into a thread of its own. With what an earlier one has worked out in `memory` and `read` from the
 * database, a new lot costs the reading of that lot and the scan of its part only.
 */
export async function scanPlant(
  database: Database,
  {
    now,
    memory = new ScanMemory(),
    read = new PlantMemory(),
    askScatter = scatterHere,
    onStep = () => {},
  }: {
    now: number;
    memory?: ScanMemory;
    read?: PlantMemory;
    askScatter?: ScatterAsked;
    onStep?: (step: ScanStep) => void;
  },
): Promise<ScanDone> {
  const begun = performance.now();
  await answerFlags(database, { now });
  const plant = await measuredPlant(database, {
    now,
    setAside: setAsideBy(connectionOf(database)),
    memory: read,
    onPart: (done, total) =>
      onStep({ say: `reading part ${done + 1} of ${total}`, share: (READ * done) / total }),
  });
  const { parts, partLots, codeOf, events, measurements, mark } = plant;
  const scan = scanForDrift(parts, {
    codeOf,
    events,
    memory,
    askScatter,
    onStep: ({ say, share }) => onStep({ say, share: READ + (1 - READ) * share }),
  });
  const durationMs = Math.round(performance.now() - begun);
  const result = scanToText({ ...scan, partLots });
  return write(database, (connection) => {
    const { orm } = connection;
    const before = orm.select({ mark: driftScan.mark }).from(driftScan).get();
    const differs =
      before?.mark === mark &&
      orm.select({ result: driftScan.result }).from(driftScan).get()?.result !== result;
    const row = { id: 1, mark, computedAt: now, durationMs, measurements, result };
    orm.insert(driftScan).values(row).onConflictDoUpdate({ target: driftScan.id, set: row }).run();
    // The same measurements looked at once more say nothing new about a flag.
    if (before?.mark !== mark || differs)
      followFlags(connection, { changes: flagChanges(scan, latestFlags(connection)), lots: scan.lots, now });
    tell(connection, { kind: "drift", partId: null });
    return { flags: scan.flags.length, measurements, durationMs, differs };
  });
}

function followFlags(
  { orm }: Connection,
  { changes, lots, now }: { changes: FlagChanges; lots: DriftScan["lots"]; now: number },
): void {
  const latestOf = (flag: DriftFlag) => ({
    latest: scanToText(flag),
    latestAt: now,
    onsetAt: earliestOnset(flag, lots),
    faintScans: 0,
  });
  for (const flag of changes.open) {
    const { source } = flag;
    orm
      .insert(driftFlag)
      .values({
        sourceKind: source.kind,
        sourceCode: source.id,
        openedAt: now,
        state: "open",
        ...latestOf(flag),
      })
      .run();
  }
  for (const { id, flag } of changes.goOn)
    orm.update(driftFlag).set(latestOf(flag)).where(eq(driftFlag.id, id)).run();
  for (const { id, faintScans } of changes.faint)
    orm.update(driftFlag).set({ faintScans }).where(eq(driftFlag.id, id)).run();
  for (const { id } of changes.fade)
    orm.update(driftFlag).set({ state: "faded", endedAt: now }).where(eq(driftFlag.id, id)).run();
}

/** Ends open flags whose source somebody has put right since, with the moment of that event. */
async function answerFlags(database: Database, { now }: { now: number }): Promise<void> {
  const events = await eventsUpTo(database, now);
  const answered = (await openFlags(database)).flatMap((flag) => {
    const answer = answerTo(flag, events);
    return answer === null ? [] : [{ id: flag.id, at: answer.at }];
  });
  if (answered.length === 0) return;
  await write(database, ({ orm }) => {
    for (const { id, at } of answered) {
      orm
        .update(driftFlag)
        .set({ state: "answered", endedAt: at })
        .where(and(eq(driftFlag.id, id), eq(driftFlag.state, "open")))
        .run();
    }
  });
}

/** A person has looked into a flag and closes it; it stays closed while the same change is found. */
export async function closeFlag(
  database: Database,
  { id, remark, actor }: { id: number; remark: string; actor: Actor },
): Promise<{ ok: true } | Refused> {
  return write(database, (connection) => {
    const closed = connection.orm
      .update(driftFlag)
      .set({ state: "closed", endedAt: actor.at, remark, accountId: actor.accountId })
      .where(and(eq(driftFlag.id, id), eq(driftFlag.state, "open")))
      .returning({ kind: driftFlag.sourceKind, code: driftFlag.sourceCode })
      .get();
    if (!closed) return refused("flag-closed");
    record(connection, actor, {
      action: "close drift flag",
      subject: `${closed.kind} ${closed.code}`,
      after: { id, remark },
    });
    tell(connection, { kind: "drift", partId: null });
    return { ok: true };
  });
}
