import { log } from "../../log";
import "server-only";
import { randomUUID } from "node:crypto";
import { resolve } from "node:path";
import { giveUpLease, holdLease } from "../../../db/commands/lease";
import { database } from "../../database";
import { mostUploadBytes } from "../upload-folder";
import { type LyingFile, lyingIn, settledSince } from "./folder";
import { takeFromFolder } from "./take";

/*
 * Watches one folder: STEADYREST_WATCH. It is looked at every two seconds rather than waited on, because network
 * shares do not tell of changes. Of several processes on one database one watches.
 */

const LOOK_MS = 2000;
const LEASE_MS = 60_000;

export type Watch = {
  folder: string;
  /** True when this process is the one that watches. */
  isWatching: boolean;
  lookedAt: number | null;
  /** Why the folder cannot be read or a file in it not be moved; null when all is well. */
  fault: string | null;
};

type Holder = { steadyrestWatch?: Watch };
const holder = globalThis as Holder;

/** The watched folder as this process sees it; null when none is set. */
export function watchNow(): Watch | null {
  return holder.steadyrestWatch ?? null;
}

/** Begins to watch when a folder is set. The returned function stops: a file under way is finished by its job. */
export function startWatching(): () => Promise<void> {
  const given = process.env.STEADYREST_WATCH;
  if (!given) return async () => undefined;
  const watch: Watch = { folder: resolve(given), isWatching: false, lookedAt: null, fault: null };
  holder.steadyrestWatch = watch;
  const lease = { name: "watched folder", holder: randomUUID() };
  let before: LyingFile[] = [];
  let isOver = false;

  /** By itself, for a large file may take longer than a lease lasts. */
  async function renew(): Promise<void> {
    watch.isWatching = await holdLease(await database(), { ...lease, now: Date.now(), ms: LEASE_MS });
  }

  async function look(): Promise<void> {
    if (!watch.isWatching) await renew();
    if (!watch.isWatching) return;
    const plant = await database();
    const lying = await lyingIn(watch.folder);
    const settled = settledSince(before, lying);
    before = lying;
    watch.lookedAt = Date.now();
    for (const file of settled) {
      if (isOver) return;
      await takeFromFolder(plant, { folder: watch.folder, file, mostBytes: mostUploadBytes() });
    }
    watch.fault = null;
  }

  async function again(): Promise<void> {
    try {
      await look();
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      if (message !== watch.fault)
        log.error({ err: error }, "the watched folder could not be looked at; it is tried again");
      watch.fault = message;
    }
    if (!isOver) setTimeout(again, LOOK_MS).unref();
  }

  void again();
  const renewing = setInterval(
    () =>
      void renew().catch((error) =>
        log.error({ err: error }, "the lease of the watched folder was not renewed"),
      ),
    LEASE_MS / 3,
  ).unref();
  return async () => {
    isOver = true;
    clearInterval(renewing);
    if (watch.isWatching) await giveUpLease(await database(), lease);
  };
}
