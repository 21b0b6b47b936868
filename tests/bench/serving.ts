import { Agent } from "node:http";
import { buildPages } from "../../app/start/pages.mjs";
import { listener } from "../soak/listener";
import { type Server, serverOn } from "../soak/server";
import type { Bench, BenchResult } from "./benches";
import { bareServer, FEATURES_OF_A_PIECE, poster, processorOf, untilIdle } from "./posting";
import { answered, oneByOne, quantile, saturated, steadily, type Target } from "./requests";
import { type ServedPlant, servedPlant } from "./serving-data";

/*
 * What people at screens and machines at lines wait for: answers of the built server on a database of the size
 * asked for. Pages are asked for one after another; pieces come at a steady pace while a page listens for news, and
 * then from sixteen callers at once, side by side with a server that only checks and stores.
 */

const ROWS = 1_000_000;
/** A growth by ten is told from here on: below, 2,000 features have no history to speak of. */
const LEAST_TO_GROW = 10_000_000;
const PAGES_ASKED = 60;
const WARM_UPS = 40;
const STEADY = { aSecond: 50, seconds: 20 };
const SATURATED = { callers: 16, seconds: 10 };
const HEARD_WITHIN_MS = 2_000;

type Ratios = BenchResult["ratios"];

export const serving: Bench = {
  times: "the server's answers: shift board, feature page, pieces posted",
  async run({ rows = ROWS, folder, kept }): Promise<BenchResult> {
    await buildPages(process.cwd());
    const plant = await servedPlant(kept ?? folder, rows);
    const grows = rows >= LEAST_TO_GROW;
    const smaller = grows ? await servedPlant(kept ?? folder, rows / 10) : null;
    const boardOfSmaller = smaller && (await onServer(smaller, (target) => board(target, smaller)));
    const { ratios, boardTimes } = await onServer(plant, (target, server) => all(target, server, plant));
    const floor = await floorOf(folder);
    const growth = boardOfSmaller
      ? [
          {
            label: "shift board, median at ten times the measurements over median",
            value: quantile(boardTimes, 0.5) / quantile(boardOfSmaller, 0.5),
            bar: "under 1.2",
          },
        ]
      : [];
    const rate = ratios.find(({ label }) => label === RATE)?.value ?? Number.NaN;
    const count = plant.measurements.toLocaleString("en");
    return {
      about: `${count} measurements of ${plant.features} features, ${plant.readings.toLocaleString("en")} of one; ${PAGES_ASKED} requests a page, ${STEADY.seconds} s of ${STEADY.aSecond} posts a second of ${FEATURES_OF_A_PIECE} measurements`,
      timings: [],
      ratios: [
        ...growth,
        ...ratios,
        ...floor.ratios,
        { label: "pieces a second, of the bare server's", value: rate / floor.rate, bar: "at least 0.5" },
      ],
      remarks: [
        ...(grows ? [] : [`Growth of the board is told from --rows ${LEAST_TO_GROW} on.`]),
        "The bare server checks and stores, and does nothing else: no features, rules, alarms, news, keys or duplicates.",
      ],
    };
  },
};

async function onServer<Found>(
  plant: ServedPlant,
  measure: (target: Target, server: Server) => Promise<Found>,
): Promise<Found> {
  const server = await serverOn(plant.data);
  await server.start();
  await untilIdle(server);
  const agent = new Agent({ keepAlive: true, maxSockets: SATURATED.callers });
  try {
    return await measure({ address: server.address, agent }, server);
  } finally {
    agent.destroy();
    await server.stop();
  }
}

const board = (target: Target, { cookie }: ServedPlant) => asked(target, "/", cookie);

async function asked(target: Target, path: string, cookie: string): Promise<number[]> {
  const ask = async () => (await answered({ ...target, path, headers: { cookie } })).ms;
  // What makes a page is compiled while it is made: a server that runs all day has long done so.
  for (let i = 0; i < WARM_UPS; i++) await ask();
  return oneByOne(PAGES_ASKED, ask);
}

async function all(target: Target, server: Server, plant: ServedPlant) {
  const boardTimes = await board(target, plant);
  const page = await asked(target, `/features/${plant.longest}`, plant.cookie);
  const post = poster(target, {
    path: "/api/v1/measurements",
    secret: plant.secret,
    after: plant.latest,
    run: `B${plant.latest}`,
  });
  const steady = await steadyWithNews(post, server, plant);
  const most = await filled(post, server.pid() ?? 0);
  return {
    boardTimes,
    ratios: [
      ...quantiles("shift board, answered within", boardTimes, { share: 0.95, bar: "under 60" }),
      ...quantiles("page of the longest feature, answered within", page, { share: 0.95, bar: "under 120" }),
      ...steady,
      { label: RATE, value: most.rate },
      { label: "processor of a piece, ms", value: most.processor },
    ],
  };
}

const RATE = `pieces a second from ${SATURATED.callers} callers at once`;

/** Pieces at a steady pace; their answers, and when an open page heard of them after they were written. */
async function steadyWithNews(
  post: () => Promise<number>,
  server: Server,
  { cookie, newsBefore }: ServedPlant,
): Promise<Ratios> {
  await oneByOne(20, post);
  const page = listener(server.address, { cookie, after: newsBefore });
  try {
    await heard(() => page.heard.length > 0);
    const before = page.delays.length;
    const answers = await steadily(post, STEADY);
    await heard(() => page.delays.length >= before + answers.length);
    const delays = page.delays.slice(before);
    if (delays.length < answers.length) throw new Error(`${delays.length} of ${answers.length} were told.`);
    return [
      ...quantiles("piece stored, judged and answered within", answers, { share: 0.99, bar: "under 50" }),
      ...quantiles("and told to who listens after it was written, within", delays, { share: 0.99 }),
    ];
  } finally {
    page.stop();
  }
}

async function heard(isDone: () => boolean): Promise<void> {
  const end = Date.now() + HEARD_WITHIN_MS;
  while (!isDone() && Date.now() < end) await new Promise((resolve) => setTimeout(resolve, 20));
}

async function filled(post: () => Promise<number>, pid: number) {
  const before = processorOf(pid);
  const { done, aSecond } = await saturated(post, SATURATED);
  return { rate: aSecond, processor: ((processorOf(pid) - before) * 1000) / done };
}

async function floorOf(folder: string): Promise<{ rate: number; ratios: Ratios }> {
  const server = await bareServer(folder);
  const agent = new Agent({ keepAlive: true, maxSockets: SATURATED.callers });
  try {
    const post = poster(
      { address: server.address, agent },
      { path: "/", secret: "none", after: Date.UTC(2026, 0, 1), run: "B" },
    );
    await oneByOne(20, post);
    const most = await filled(post, server.pid);
    return {
      rate: most.rate,
      ratios: [
        { label: "floor, a bare server: pieces a second", value: most.rate },
        { label: "floor, processor of a piece, ms", value: most.processor },
      ],
    };
  } finally {
    agent.destroy();
    await server.stop();
  }
}

function quantiles(
  label: string,
  milliseconds: readonly number[],
  { share, bar }: { share: 0.95 | 0.99; bar?: string },
): Ratios {
  return [
    { label: `${label}, ms, median`, value: quantile(milliseconds, 0.5) },
    {
      label: `${label}, ms, p${100 * share}`,
      value: quantile(milliseconds, share),
      ...(bar === undefined ? {} : { bar }),
    },
  ];
}
