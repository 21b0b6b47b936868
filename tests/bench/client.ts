import { Agent } from "node:http";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { type Browser, chromium, type Page } from "playwright-core";
import { buildPages } from "../../app/start/pages.mjs";
import { openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { evaluate } from "../../lib/evaluation/evaluate";
import { joinSignals } from "../../lib/evaluation/patterns";
import { CHROMIUM_FLAGS, chromium as chromiumPath } from "../chromium.mjs";
import { type Server, serverOn } from "../soak/server";
import type { Bench, BenchResult } from "./benches";
import { chartSteps, drawnPoints } from "./chart-steps";
import { type FirstView, firstView, seenBy, still, type Visitor, visitor } from "./first-view";
import { openBoards } from "./open-boards";
import { poster, processorOf } from "./posting";
import { quantile, steadily, type Target } from "./requests";
import { type ServedPlant, servedPlant } from "./serving-data";

/*
 * What a page costs the person in front of it, measured in Chromium on the built server: script, time to the largest
 * paint, movement, steps over a long history; and what many open boards cost the server.
 */

const ROWS = 2_000_000;
const WARM_UPS = 4;
const COLD_LOADS = 9;
const IDLE_WITHIN_S = 180;
const DESK = { width: 1440, height: 900 };
const PHONE = { width: 390, height: 844 };
const BOARDS = 50;
const POSTS = { aSecond: 5, seconds: 40 };
/** A mark of the strip stands for what lies so near, as a share of the strip: 6 of some 1,150 pixels. */
const COVERED = 0.005;

type Ratios = BenchResult["ratios"];
type Measured = { browser: Browser; server: Server; plant: ServedPlant; target: Target };

export const client: Bench = {
  times: "pages in Chromium: script, paints, movement, steps over a long history; what open boards cost",
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
      const views = await firstViews(measured);
      const steps = await longHistory(measured);
      const boards = await boardsOpen(measured);
      return {
        about: `${plant.measurements.toLocaleString("en")} measurements of ${plant.features} features, ${plant.readings.toLocaleString("en")} of one; ${COLD_LOADS} cold loads a page`,
        timings: [],
        ratios: [...views.ratios, ...steps, ...boards.ratios],
        remarks: [
          ...views.remarks,
          ...boards.remarks,
          "Largest paints are on loopback, of a browser with an empty cache and a server that has answered before.",
        ],
      };
    } finally {
      agent.destroy();
      await browser.close();
      await server.stop();
    }
  },
};

async function firstViews({
  browser,
  server,
  plant,
}: Measured): Promise<{ ratios: Ratios; remarks: string[] }> {
  const pages = [
    { name: "shift board", path: "/", bar: "at most 160" },
    { name: "feature page", path: `/features/${plant.longest}`, bar: "at most 270" },
  ];
  const ratios: Ratios = [];
  const remarks: string[] = [];
  for (const { name, path, bar } of pages) {
    const view = (size: typeof DESK) => firstView(browser, visiting({ server, plant }, size), path);
    // The first answers of a server load and compile what makes them.
    for (let i = 0; i < WARM_UPS; i++) await view(DESK);
    const desk: FirstView[] = [];
    for (let i = 0; i < COLD_LOADS; i++) desk.push(await view(DESK));
    const phone = await view(PHONE);
    const last = desk.at(-1)!;
    const paints = desk.map(({ paint }) => paint);
    const shift = Math.max(phone.shift, ...desk.map((one) => one.shift));
    ratios.push(
      { label: `${name}, script as sent, kB`, value: last.sent },
      { label: `${name}, script compressed, kB`, value: last.compressed, bar },
      { label: `${name}, largest paint, ms, median`, value: quantile(paints, 0.5), bar: "under 1200" },
      { label: `${name}, largest paint, ms, longest`, value: Math.max(...paints) },
      { label: `${name}, layout shift, desk and phone`, value: shift, bar: "0" },
    );
    const moved = new Set([...phone.moved, ...desk.flatMap((one) => one.moved)]);
    if (moved.size > 0) remarks.push(`On the ${name} moved by themselves: ${[...moved].join(", ")}.`);
  }
  return { ratios, remarks };
}

async function longHistory({ browser, server, plant }: Measured): Promise<Ratios> {
  const context = await visitor(browser, visiting({ server, plant }, DESK));
  const page = await context.newPage();
  await page.goto(`/features/${plant.longest}`);
  await still(page);
  const signalled = await signalledSubgroups(plant);
  const drawn = await drawnPoints(page, signalled, { reach: COVERED });
  const thread = await mainThread(page);
  const before = { server: processorOf(server.pid() ?? 0), page: await thread() };
  const { drag, pan, zoom } = await chartSteps(page);
  const charts = pan.length + zoom.length;
  const ofServer = (1000 * (processorOf(server.pid() ?? 0) - before.server)) / charts;
  const ofPage = (1000 * ((await thread()) - before.page)) / charts;
  await context.close();
  const times = (label: string, values: readonly number[]): Ratios => [
    { label: `${label}, ms, median of ${values.length}`, value: quantile(values, 0.5) },
    { label: `${label}, ms, p95`, value: quantile(values, 0.95), bar: "under 100" },
  ];
  return [
    { label: "points drawn of the long history", value: drawn.line + drawn.marks, bar: "at most 2000" },
    { label: `of ${signalled.length} signalled subgroups, not drawn`, value: drawn.missing, bar: "0" },
    ...times("frame dragged over the history, event to frame", drag),
    ...times("chart moved to other points, event to frame", pan),
    ...times("chart zoomed out and in, event to frame", zoom),
    { label: "processor of a step of the chart, ms: server", value: ofServer },
    { label: "processor of a step of the chart, ms: the page's thread", value: ofPage },
  ];
}

/** Seconds of the processor that the thread of a page has used so far. */
async function mainThread(page: Page): Promise<() => Promise<number>> {
  const session = await page.context().newCDPSession(page);
  await session.send("Performance.enable", { timeDomain: "threadTicks" });
  return async () => {
    const { metrics } = await session.send("Performance.getMetrics");
    return metrics.find(({ name }) => name === "TaskDuration")?.value ?? Number.NaN;
  };
}

/** A server that has just started may look for drifting sources first, which is not what is measured here. */
async function untilIdle(server: Server): Promise<void> {
  for (let second = 0; second < IDLE_WITHIN_S; second++) {
    const before = processorOf(server.pid() ?? 0);
    await pause(1_000);
    if (!(processorOf(server.pid() ?? 0) - before > 0.05)) return;
  }
  throw new Error(`The server is still at work ${IDLE_WITHIN_S} s after its start.`);
}

/** As the judge finds them, not as the page says. */
async function signalledSubgroups({ data, longest }: ServedPlant): Promise<number[]> {
  const database = await openDatabase(join(data, "steadyrest.db"));
  try {
    const history = await featureHistory(database, longest);
    if (!history) throw new Error(`There is no feature ${longest}.`);
    const { signals } = evaluate(history.series, history.setup);
    return [...new Set(joinSignals(signals).flatMap(({ members }) => members))];
  } finally {
    await database.close();
  }
}

/** The server's processor while pieces come, with nobody looking and then with the boards; one of them in Chromium. */
async function boardsOpen(measured: Measured): Promise<{ ratios: Ratios; remarks: string[] }> {
  const { browser, server, plant, target } = measured;
  const posting = { secret: plant.secret, after: plant.latest, run: `C${plant.latest}` };
  const post = poster(target, { path: "/api/v1/measurements", ...posting });
  const used = async () => {
    const before = processorOf(server.pid() ?? 0);
    await steadily(post, POSTS);
    return (100 * (processorOf(server.pid() ?? 0) - before)) / POSTS.seconds;
  };
  const alone = await used();

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
  const feature = await shiftWhileMeasured(measured, post);
  return {
    ratios: [
      {
        label: `server with ${POSTS.aSecond} pieces a second, nobody looking, % of a processor`,
        value: alone,
      },
      { label: `the same with ${BOARDS} boards open`, value: together },
      { label: `what ${BOARDS} boards add, % of a processor`, value: together - alone, bar: "under 10" },
      { label: "shift board, layout shift while measurements come", value: shift, bar: "0" },
      { label: "feature page, layout shift while measurements come", value: feature.shift, bar: "0" },
    ],
    remarks: [
      `The boards showed themselves anew ${looks} times in ${POSTS.seconds} s; their streams were told of every piece.`,
      ...[...new Set([...moved, ...feature.moved])].map((what) => `Moved while measurements came: ${what}.`),
    ],
  };
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

function visiting({ server, plant }: Pick<Measured, "server" | "plant">, size: typeof DESK): Visitor {
  return { address: server.address, cookie: plant.cookie, ...size };
}
