import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { monitorEventLoopDelay } from "node:perf_hooks";
import { setTimeout as pause } from "node:timers/promises";
import { followSources, scanNow } from "../../app/jobs/scans";
import { bundle } from "../../app/start/bundle.mjs";
import type { Database } from "../../db/connection";
import { latestScan } from "../../db/queries/drift";
import { listFeatures } from "../../db/queries/features";
import type { BenchResult } from "./benches";

const EVERY_MS = 10;
const WITHIN_MS = 120_000;
const NANOSECONDS = 1e6;

/**
 * How long others wait while the scan's thread works as in the running program: delays of this process's event loop,
 * which answers a request for all features every 10 ms meanwhile, and the time to each answer.
 */
export async function delaysWhileScanning(database: Database): Promise<BenchResult["ratios"]> {
  await bundle(process.cwd());
  const server = createServer((_request, answer) => {
    void listFeatures(database).then((features) => answer.end(JSON.stringify(features)));
  }).listen(0, "127.0.0.1");
  await once(server, "listening");
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
  const delays = monitorEventLoopDelay({ resolution: 1 });
  const answers: number[] = [];
  let fault: unknown = null;
  for (let i = 0; i < 20; i++) await (await fetch(address)).text();
  const stop = followSources(database, {
    onFault: (error) => {
      fault = error;
    },
  });
  try {
    const end = Date.now() + WITHIN_MS;
    delays.enable();
    while ((await latestScan(database)) === null || scanNow().step !== null) {
      if (fault !== null) throw fault;
      if (Date.now() > end) throw new Error("The scan did not end within two minutes.");
      const begun = performance.now();
      await (await fetch(address)).text();
      answers.push(performance.now() - begun);
      await pause(EVERY_MS);
    }
    delays.disable();
  } finally {
    await stop();
    server.closeAllConnections();
    server.close();
  }
  answers.sort((a, b) => a - b);
  const what = "while a scan runs";
  return [
    { label: `event loop delay ${what}, ms, median`, value: delays.percentile(50) / NANOSECONDS },
    {
      label: `event loop delay ${what}, ms, p99`,
      value: delays.percentile(99) / NANOSECONDS,
      bar: "under 50",
    },
    {
      label: `answer to a request ${what}, ms, p99 of ${answers.length}`,
      value: answers[Math.ceil(0.99 * answers.length) - 1] ?? Number.NaN,
    },
  ];
}
