import { log } from "../log";
import "server-only";
import { randomUUID } from "node:crypto";
import { giveUpLease, holdLease } from "../../db/commands/lease";
import { database } from "../database";
import { sendDue } from "./send";

/* Sends messages while this process lives; of several processes on one database, one does. */

const LOOK_MS = 2000;
const LEASE_MS = 60_000;

/** Receivers on this machine itself are refused but for trying things out. */
export const allowsOwnMachine = (): boolean => process.env.STEADYREST_WEBHOOKS_TO_THIS_MACHINE === "1";

/** Begins; the returned function stops, after what is being sent. */
export function startSending(): () => Promise<void> {
  const lease = { name: "messages", holder: randomUUID() };
  let isHeld = false;
  let isOver = false;

  /** By itself, for slow receivers may take longer than a lease lasts. */
  async function renew(): Promise<void> {
    isHeld = await holdLease(await database(), { ...lease, now: Date.now(), ms: LEASE_MS });
  }

  async function look(): Promise<void> {
    if (!isHeld) await renew();
    if (isHeld) await sendDue(await database(), { now: Date.now(), allowsOwn: allowsOwnMachine() });
  }

  async function again(): Promise<void> {
    try {
      await look();
    } catch (error) {
      log.error({ err: error }, "messages could not be sent; it is tried again");
    }
    if (!isOver) setTimeout(again, LOOK_MS).unref();
  }

  setTimeout(again, LOOK_MS).unref();
  const renewing = setInterval(
    () => void renew().catch((error) => log.error({ err: error }, "the lease of messages was not renewed")),
    LEASE_MS / 3,
  ).unref();
  return async () => {
    isOver = true;
    clearInterval(renewing);
    if (isHeld) await giveUpLease(await database(), lease);
  };
}
