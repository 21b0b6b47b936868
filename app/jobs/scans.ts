import { randomUUID } from "node:crypto";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { Worker } from "node:worker_threads";
import { giveUpLease, holdLease } from "../../db/commands/lease";
import type { Database } from "../../db/connection";
import { isScanOutdated } from "../../db/queries/drift";
import { plantMark } from "../../db/queries/measured-plant";
import { latestNewsId } from "../../db/queries/news";
import { plantSettings } from "../../db/queries/settings";
import type { ScanStep } from "../../lib/drift/scan-step";
import type { ScannerMessage, ScanOrder } from "./scanner";

/*
 * Keeps the source scan up with the measurements. News tell that something happened, in this process or another; the
 * scan runs when measurements, plan or source events are others than those it was made of. Of several processes on
 * one database one scans.
 */

const LOOK_MS = 500;
/** Who holds it scans. */
export const SCAN_LEASE = "drift scan";
const LEASE_MS = 60_000;

/** A line that posts a piece a second would be scanned without end: a scan may take a tenth of the time. */
const REST = 9;

/** While another process scans, it is not asked at every look: what is outdated is a digest of the whole plan. */
const REST_BESIDE_OTHERS_MS = 20_000;

/**
 * After this long without a scan the thread and its memory go. Lots close hours apart, and with the memory of the last
 * scan the next takes a tenth of the time; that of a million measurements is some 250 MB.
 */
const IDLE_MS = 8 * 3_600_000;

const MOST_MEMORY_MB = 2048;

/** A scan makes some 100 MB of what is soon of no use: with room for it, hardly any is copied for being still in use. */
const YOUNG_MEMORY_MB = 192;

export type ScanNow = {
  /** What a scan under way is doing, and the share of it that is done; null when none runs. */
  step: ScanStep | null;
  /** Why the latest scan could not be made; null when it could. */
  fault: string | null;
  /** Who has stopped the latest one, and when; null when nobody has, or measurements have come in since. */
  cancelled: { by: string; at: number } | null;
};

/** `unscanned` is the mark of what a cancelled scan was of: it is not begun again by itself until that changes. */
type Held = ScanNow & { hurry: boolean; unscanned: string | null; stop: (() => void) | null };
type Holder = { steadyrestScans?: Held };
const holder = globalThis as Holder;

function held(): Held {
  holder.steadyrestScans ??= {
    step: null,
    fault: null,
    cancelled: null,
    hurry: false,
    unscanned: null,
    stop: null,
  };
  return holder.steadyrestScans;
}

/** What this process's scan is doing. */
export function scanNow(): ScanNow {
  const { step, fault, cancelled } = held();
  return { step, fault, cancelled };
}

/** A person waits for the answer: the next scan need not rest first, and is made although one was cancelled. */
export function hurryScan(): void {
  held().hurry = true;
}

/** Ends the scan under way, which leaves nothing behind; false when none is. */
export function cancelScan(who: { by: string; at: number }): boolean {
  const state = held();
  if (state.stop === null) return false;
  state.cancelled = who;
  state.stop();
  return true;
}

/** Begins to follow; the returned function stops, and gives up what was being scanned. `onFault` hears of each new one. */
export function followSources(
  database: Database,
  { onFault }: { onFault: (error: unknown) => void },
): () => Promise<void> {
  const lease = { name: SCAN_LEASE, holder: randomUUID() };
  const state = held();
  let thread: Worker | null = null;
  let seen = -1;
  let restUntil = 0;
  let usedAt = Date.now();
  let isOver = false;

  async function look(): Promise<void> {
    if (thread !== null && Date.now() - usedAt > IDLE_MS) {
      await thread.terminate();
      thread = null;
    }
    if (Date.now() < restUntil && !state.hurry) return;
    const latest = await latestNewsId(database);
    if (latest === seen && !state.hurry) return;
    if (!(await isScanOutdated(database))) {
      seen = latest;
      state.hurry = false;
      return;
    }
    const mark = await plantMark(database);
    if (mark === state.unscanned && !state.hurry) {
      seen = latest;
      return;
    }
    if (!(await holdLease(database, { ...lease, now: Date.now(), ms: LEASE_MS }))) {
      restUntil = Date.now() + REST_BESIDE_OTHERS_MS;
      return;
    }
    state.hurry = false;
    state.cancelled = null;
    const begun = Date.now();
    await scanOnce();
    state.unscanned = state.cancelled === null ? null : mark;
    seen = latest;
    restUntil = Date.now() + REST * (Date.now() - begun);
    usedAt = Date.now();
  }

  async function scanOnce(): Promise<void> {
    const { clock } = await plantSettings(database);
    thread ??= scannerThread(database.path);
    const current = thread;
    state.step = { say: "beginning", share: 0 };
    state.stop = () => void current.terminate();
    const renewing = setInterval(
      () => void holdLease(database, { ...lease, now: Date.now(), ms: LEASE_MS }).catch(() => undefined),
      LEASE_MS / 3,
    );
    try {
      await answerOf(current, { now: clock ?? Date.now() }, (step) => {
        state.step = step;
      });
      state.fault = null;
      if (state.cancelled === null) return;
      // It was done before its end was heard of.
      state.cancelled = null;
      thread = null;
    } catch (error) {
      thread = null;
      void current.terminate();
      // A cancelled one ends because its thread was ended.
      if (state.cancelled === null) throw error;
    } finally {
      clearInterval(renewing);
      state.step = null;
      state.stop = null;
    }
  }

  async function again(): Promise<void> {
    try {
      await look();
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      if (message !== state.fault && !isOver) onFault(error);
      state.fault = message;
      restUntil = Date.now() + LEASE_MS;
    }
    if (!isOver) setTimeout(again, LOOK_MS).unref();
  }

  void again();
  return async () => {
    isOver = true;
    await thread?.terminate();
    await giveUpLease(database, lease).catch(() => undefined);
  };
}

/** A thread that scans when it is told to (`ScanOrder`). The path is put together at run time: a bundler that sees it would take the worker apart. */
export function scannerThread(databasePath: string): Worker {
  const path = [process.cwd(), ".build", "scanner.mjs"] as const;
  const worker = new Worker(pathToFileURL(join(...path)), {
    workerData: { databasePath },
    resourceLimits: { maxOldGenerationSizeMb: MOST_MEMORY_MB, maxYoungGenerationSizeMb: YOUNG_MEMORY_MB },
  });
  worker.unref();
  return worker;
}

function answerOf(thread: Worker, order: ScanOrder, onStep: (step: ScanStep) => void): Promise<void> {
  return new Promise((resolve, reject) => {
    const end = (settle: () => void) => {
      thread.off("message", hear).off("error", reject).off("exit", gone);
      settle();
    };
    const gone = () => end(() => reject(new Error("its thread ended without a result")));
    const hear = (message: ScannerMessage) => {
      if (message.say === "step") onStep(message.step);
      if (message.say === "done") end(resolve);
      if (message.say === "broken") end(() => reject(new Error(message.message)));
    };
    thread.on("message", hear).on("error", reject).on("exit", gone);
    thread.postMessage(order);
  });
}
