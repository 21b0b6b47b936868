import { Agent } from "node:http";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { type Browser, chromium } from "playwright-core";
import { SCAN_LEASE } from "../../app/jobs/scans";
import { buildPages } from "../../app/start/pages.mjs";
import { holdLease } from "../../db/commands/lease";
import { connectionOf, openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { CHROMIUM_FLAGS, chromium as chromiumPath } from "../chromium.mjs";
import { type Server, serverOn } from "../soak/server";
import type { Bench, BenchResult } from "./benches";
import { DESK, firstView, seenBy, still, visiting, visitor } from "./first-view";
import { openBoards, warmBoards } from "./open-boards";
import { poster, processorOf, untilIdle } from "./posting";
import { steadily, type Target } from "./requests";
import { type ServedPlant, servedPlant } from "./serving-data";

/*
 * What many open boards cost the server while pieces come, and whether anything moves under the eyes of who looks: one
 * of the boards is a page in Chromium, the others do over the line what such a page does.
 */

const ROWS = 1_000_000;
const BOARDS = 50;
const WARM_UPS = 100;
/** Longer than the calm time of a board, so that every one of them looks again. */
const POSTS = { aSecond: 5, seconds: 24 };

type Measured = { browser: Browser; server: Server; plant: ServedPlant; target: Target };

export const boards: Bench = {
  times: `what ${BOARDS} open shift boards cost the server while pieces come, and what moves on them`,
  async run({ rows = ROWS, folder, kept }): Promise<BenchResult> {
    const executablePath = chromiumPath();
    if (!executablePath) throw new Error("it needs Chromium: CHROMIUM=/path/to/chromium names one.");
    await buildPages(process.cwd());
    const plant = await servedPlant(kept ?? folder, rows);
    const server = await serverOn(plant.data);
    await server.start();
    const agent = new Agent({ keepAlive: true });
    const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
    try {
      const measured = { browser, server, plant, target: { address: server.address, agent } };
      await firstView(browser, visiting(measured, DESK), "/");
      await untilIdle(server);
      await warmBoards(measured.target, { cookie: plant.cookie, times: WARM_UPS });
      return {
        about: `${plant.measurements.toLocaleString("en")} measurements of ${plant.features} features; ${POSTS.aSecond} pieces a second for ${POSTS.seconds} s`,
        timings: [],
        ...(await boardsOpen(measured)),
      };
    } finally {
      agent.destroy();
      await browser.close();
      await server.stop();
    }
  },
};

/** The server's processor while pieces come, with nobody looking and then with the boards; one of them in Chromium. */
async function boardsOpen(measured: Measured): Promise<Pick<BenchResult, "ratios" | "remarks">> {
  const { browser, server, plant, target } = measured;
  const posting = { secret: plant.secret, after: plant.latest, run: `C${plant.latest}` };
  const post = poster(target, { path: "/api/v1/measurements", ...posting });
  const used = async () => {
    const before = processorOf(server.pid() ?? 0);
    await steadily(post, POSTS);
    return (100 * (processorOf(server.pid() ?? 0) - before)) / POSTS.seconds;
  };
  // The first pieces make the server scan the whole plant, and what takes in pieces is compiled on the way.
  await steadily(post, { aSecond: POSTS.aSecond, seconds: 4 });
  await untilIdle(server);
  await restScans(plant);
  const before = await used();

  const context = await visitor(browser, visiting(measured, DESK));
  const board = await context.newPage();
  await board.goto("/");
  const { cookie, newsBefore: after } = plant;
  const boards = await openBoards(BOARDS - 1, target, { cookie, after });
  const looksBefore = boards.looks();
  const together = await used();
  const looks = boards.looks() - looksBefore;
  boards.close();
  const { shift, moved } = await seenBy(board);
  await context.close();
  await untilIdle(server);
  const alone = (before + (await used())) / 2;
  const feature = await shiftWhileMeasured(measured, post);
  return {
    ratios: [
      {
        label: `server with ${POSTS.aSecond} pieces a second, nobody looking (before and after), % of a processor`,
        value: alone,
      },
      { label: `the same with ${BOARDS} boards open`, value: together },
      { label: `what ${BOARDS} boards add, % of a processor`, value: together - alone, bar: "under 10" },
      { label: "shift board, layout shift while measurements come", value: shift, bar: "0" },
      { label: "feature page, layout shift while measurements come", value: feature.shift, bar: "0" },
    ],
    remarks: [
      "The source scan rests meanwhile: it costs the same whoever looks, and one more in a window than in another is as much as the boards.",
      `The boards showed themselves anew ${looks} times in ${POSTS.seconds} s; their streams were told of every piece.`,
      ...[...new Set([...moved, ...feature.moved])].map((what) => `Moved while measurements came: ${what}.`),
    ],
  };
}

/** Has the server leave scanning to another process, which is this one and does not scan. */
async function restScans({ data }: ServedPlant): Promise<void> {
  const database = await openDatabase(join(data, "steadyrest.db"));
  const { sqlite } = connectionOf(database);
  // The server's own would run out within a minute.
  sqlite.prepare("delete from setting where key = ?").run(`lease ${SCAN_LEASE}`);
  await holdLease(database, { name: SCAN_LEASE, holder: "bench", now: Date.now(), ms: 300_000 });
  await database.close();
}

async function shiftWhileMeasured({ browser, server, plant }: Measured, post: () => Promise<number>) {
  const database = await openDatabase(join(plant.data, "steadyrest.db"));
  const features = await listFeatures(database);
  await database.close();
  const posted = features.find(({ name, part }) => part.number === "P-1" && name === "F001");
  const context = await visitor(browser, visiting({ server, plant }, DESK));
  const page = await context.newPage();
  await page.goto(`/features/${posted?.id}`);
  await still(page);
  await steadily(post, { aSecond: 2, seconds: 8 });
  await pause(3_000);
  const seen = await seenBy(page);
  await context.close();
  return seen;
}
