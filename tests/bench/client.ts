import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { buildPages } from "../../app/start/pages.mjs";
import { openDatabase } from "../../db/connection";
import { featureHistory } from "../../db/queries/history";
import { evaluate } from "../../lib/evaluation/evaluate";
import { joinSignals } from "../../lib/evaluation/patterns";
import { CHROMIUM_FLAGS, chromium as chromiumPath } from "../chromium.mjs";
import { type Server, serverOn } from "../soak/server";
import type { Bench, BenchResult } from "./benches";
import { chartSteps, drawnPoints } from "./chart-steps";
import { DESK, type FirstView, firstView, PHONE, still, visiting, visitor } from "./first-view";
import { processorOf, untilIdle } from "./posting";
import { quantile } from "./requests";
import { type ServedPlant, servedPlant } from "./serving-data";

/*
 * What a page costs the person in front of it, measured in Chromium on the built server: script, time to the largest
 * paint, movement, steps over a long history. `boards.ts` beside it has what many open boards cost the server.
 */

const ROWS = 2_000_000;
const WARM_UPS = 3;
const COLD_LOADS = 7;
/** A mark of the strip stands for what lies so near, as a share of the strip: 6 of some 1,150 pixels. */
const COVERED = 0.005;

type Ratios = BenchResult["ratios"];
type Measured = { browser: Browser; server: Server; plant: ServedPlant };

export const client: Bench = {
  times: "pages in Chromium: script, paints, movement, steps over a long history",
  async run({ rows = ROWS, folder, kept }): Promise<BenchResult> {
    const executablePath = chromiumPath();
    if (!executablePath) throw new Error("it needs Chromium: CHROMIUM=/path/to/chromium names one.");
    await buildPages(process.cwd());
    const plant = await servedPlant(kept ?? folder, rows);
    const server = await serverOn(plant.data);
    await server.start();
    const browser = await chromium.launch({ executablePath, args: CHROMIUM_FLAGS });
    try {
      const measured = { browser, server, plant };
      await firstView(browser, visiting(measured, DESK), "/");
      await untilIdle(server);
      const views = await firstViews(measured);
      const steps = await longHistory(measured);
      return {
        about: `${plant.measurements.toLocaleString("en")} measurements of ${plant.features} features, ${plant.readings.toLocaleString("en")} of one; ${COLD_LOADS} cold loads a page`,
        timings: [],
        ratios: [...views.ratios, ...steps],
        remarks: [
          ...views.remarks,
          "Largest paints are on loopback, of a browser with an empty cache and a server that has answered before.",
        ],
      };
    } finally {
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
  const { frame, drag, pan, key, zoom } = await chartSteps(page);
  const charts = drag.length + pan.length + key.length + zoom.length;
  const ofServer = (1000 * (processorOf(server.pid() ?? 0) - before.server)) / charts;
  const ofPage = (1000 * ((await thread()) - before.page)) / charts;
  await context.close();
  const times = (label: string, values: readonly number[]): Ratios => [
    { label: `${label}, ms, median of ${values.length}`, value: quantile(values, 0.5) },
    { label: `${label}, ms, p95`, value: quantile(values, 0.95), bar: "under 100" },
    { label: `${label}, ms, longest`, value: Math.max(...values) },
  ];
  return [
    { label: "points drawn of the long history", value: drawn.line + drawn.marks, bar: "at most 2000" },
    { label: `of ${signalled.length} signalled subgroups, not drawn`, value: drawn.missing, bar: "0" },
    ...times("frame dragged over the history, event to frame", frame),
    ...times("chart under a hand that drags the frame far, event to frame", drag),
    ...times("chart moved to the points before by its link, event to frame", pan),
    ...times("chart moved by a key of a slider, event to frame", key),
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
