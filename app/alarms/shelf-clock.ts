import { log } from "../log";
import "server-only";
import { endShelvings } from "../../db/commands/alarms";
import { plantSettings } from "../../db/queries/settings";
import { database } from "../database";

const LOOK_EVERY_MS = 20_000;

/** Brings shelved alarms back when their time has come, also while nobody has their page open. */
export function startShelfClock(): void {
  setInterval(() => void look(), LOOK_EVERY_MS).unref();
}

async function look(): Promise<void> {
  try {
    const plant = await database();
    const { clock } = await plantSettings(plant);
    await endShelvings(plant, { now: clock ?? Date.now() });
  } catch (error) {
    log.error({ err: error }, "shelved alarms could not be looked at; it is tried again in 20 s");
  }
}
