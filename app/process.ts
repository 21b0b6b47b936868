import "server-only";
import { failLeftIntakes } from "../db/commands/intakes";
import { pruneMessages } from "../db/commands/messages";
import { pruneNews } from "../db/commands/news";
import { rebuildOutdated } from "../db/commands/rebuild";
import { pruneAnswers } from "../db/intake/post-measurements";
import { migrate } from "../db/migrate";
import { startShelfClock } from "./alarms/shelf-clock";
import { closeDatabaseNow, database } from "./database";
import { startWatching } from "./intake/watched/watch";
import { followSources } from "./jobs/scans";
import { startSending } from "./messages/sender";
import { endStreams } from "./news/streams";

const AN_HOUR = 3_600_000;

/** What the server's process does once, before its first request and after its last. */
export async function beginProcess(): Promise<void> {
  const plant = await database();
  await migrate(plant);
  await rebuildOutdated(plant);
  await failLeftIntakes(plant, { at: Date.now() });
  setInterval(() => void tidy(), AN_HOUR).unref();
  startShelfClock();
  // Streams of news never end by themselves, and Next waits for every open answer.
  for (const signal of ["SIGTERM", "SIGINT"] as const) process.once(signal, endStreams);
  const stops = [startWatching(), startSending(), followSources(plant)];
  for (const signal of ["SIGTERM", "SIGINT"] as const)
    process.once(signal, () => {
      for (const stop of stops) void stop();
    });
  // Next ends the process by itself on SIGTERM, after the requests under way; this is the last moment.
  process.once("exit", closeDatabaseNow);
}

/** What only grows and is of no use after a while. */
async function tidy(): Promise<void> {
  try {
    const plant = await database();
    await pruneNews(plant, { now: Date.now() });
    await pruneAnswers(plant, { now: Date.now() });
    await pruneMessages(plant, { now: Date.now() });
  } catch (error) {
    console.error("What is old could not be forgotten; it is tried again in an hour:", error);
  }
}
