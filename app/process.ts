import "server-only";
import { failLeftIntakes, noteNotBegun } from "../db/commands/intakes";
import { pruneMessages } from "../db/commands/messages";
import { pruneNews } from "../db/commands/news";
import { rebuildOutdated } from "../db/commands/rebuild";
import { pruneAnswers } from "../db/intake/post-measurements";
import { migrate } from "../db/migrate";
import { holdServerLock } from "../db/one-server";
import { startShelfClock } from "./alarms/shelf-clock";
import { POST } from "./api/v1/measurements/route";
import { closeDatabaseNow, database } from "./database";
import { holdForwarded } from "./forwarded";
import { startWatching } from "./intake/watched/watch";
import { jobsNotEnded, stopJobs } from "./jobs/jobs";
import { followSources } from "./jobs/scans";
import { log } from "./log";
import { startSending } from "./messages/sender";
import { endStreams } from "./news/streams";
import { beginEnding } from "./readiness";
import { readSettings } from "./settings";
import { limitSlowRequests, REQUEST_SECONDS } from "./slow-requests";
import { answerStraight } from "./straight";

const AN_HOUR = 3_600_000;

/**
 * What the server's process does once, before its first request and after its last. When it cannot, the process ends:
 * Next would go on and answer every request with a fault.
 */
export async function beginProcess(): Promise<void> {
  try {
    await begin();
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    // The line of the log is for a collector, the sentence for whoever stands at the terminal.
    log.fatal({ err: error }, "not started");
    process.stderr.write(`\nNot started: ${why}\n`);
    process.exit(1);
  }
}

async function begin(): Promise<void> {
  const { faults, unknown, summary } = readSettings(process.env);
  for (const name of unknown) log.warn({ name }, "a setting that nobody reads; its name may be mistyped");
  if (faults.length > 0) throw new Error(faults.join(" "));
  log.info({ settings: summary }, "settings");
  holdForwarded({ isTrusted: process.env.STEADYREST_TRUST_PROXY === "1" });
  limitSlowRequests({
    seconds: Number(process.env.STEADYREST_REQUEST_SECONDS || REQUEST_SECONDS),
    onEnded: () => log.warn("a request that came in too slowly was ended"),
  });
  const plant = await database();
  if (!holdServerLock(plant.path)) {
    throw new Error(
      `another Steadyrest serves ${plant.path}. Use that one, stop it first, or give this one a folder of its own with STEADYREST_DATA.`,
    );
  }
  const { applied, backup } = await migrate(plant);
  if (applied > 0) log.info({ applied, backup }, "tables brought up to date");
  await rebuildOutdated(plant);
  await failLeftIntakes(plant, { at: Date.now() });
  setInterval(() => void tidy(), AN_HOUR).unref();
  startShelfClock();
  for (const signal of ["SIGTERM", "SIGINT"] as const)
    process.once(signal, () => {
      beginEnding();
      log.info({ signal }, "stopping: requests under way are finished");
    });
  // Streams of news never end by themselves, and Next waits for every open answer.
  for (const signal of ["SIGTERM", "SIGINT"] as const) process.once(signal, endStreams);
  const stops = [
    startWatching(),
    startSending(),
    followSources(plant, {
      onFault: (error) => log.error({ err: error }, "the source scan failed; it is tried again"),
    }),
  ];
  for (const signal of ["SIGTERM", "SIGINT"] as const)
    process.once(signal, () => {
      for (const stop of stops) void stop();
    });
  for (const signal of ["SIGTERM", "SIGINT"] as const) process.once(signal, stopJobs);
  // Next ends the process by itself on SIGTERM, after the requests under way; this is the last moment.
  process.once("exit", () => {
    // Nothing can be waited for any more: it is written at once, for the thread that stored is gone by now. A file
    // of the watched folder stays there and is taken at the next start.
    const files = jobsNotEnded().filter(({ uploadId }) => uploadId !== null);
    noteNotBegun(plant, { files, at: Date.now() }).catch(() => undefined);
    closeDatabaseNow();
  });
  // Not before: what goes through Next waits until all of this is done, and a post would meet tables of before.
  if (process.env.NODE_ENV === "production")
    answerStraight({ "POST /api/v1/measurements": POST }, ({ error, method, route }) =>
      log.error({ err: error, method, route }, "request failed"),
    );
  log.info("serving");
}

/** What only grows and is of no use after a while. */
async function tidy(): Promise<void> {
  try {
    const plant = await database();
    await pruneNews(plant, { now: Date.now() });
    await pruneAnswers(plant, { now: Date.now() });
    await pruneMessages(plant, { now: Date.now() });
  } catch (error) {
    log.error({ err: error }, "what is old could not be forgotten; it is tried again in an hour");
  }
}
