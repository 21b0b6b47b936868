import { type Agent, request } from "node:http";
import { setTimeout as pause } from "node:timers/promises";
import { gunzipSync } from "node:zlib";

/** Where requests go: an address such as http://127.0.0.1:4000, and the connections they share. */
export type Target = { address: string; agent: Agent };
export type Asked = Target & { path: string; headers: Record<string, string>; body?: string };

/** Milliseconds until the whole answer is there, and its text. */
export async function answered(asked: Asked): Promise<{ ms: number; text: string }> {
  const begun = performance.now();
  const text = (await answerTo(asked)) ?? (await answerTo(asked)) ?? "";
  return { ms: performance.now() - begun, text };
}

/** Null when the server had just ended an idle connection, as it may: then it has not seen the request. */
function answerTo({ address, path, body, ...options }: Asked): Promise<string | null> {
  return new Promise((resolve, reject) => {
    const method = body === undefined ? "GET" : "POST";
    const sent = request(`${address}${path}`, { ...options, method }, (answer) => {
      const chunks: Buffer[] = [];
      answer.on("data", (chunk: Buffer) => chunks.push(chunk));
      answer.on("end", () => {
        const bytes = Buffer.concat(chunks);
        const text = (answer.headers["content-encoding"] === "gzip" ? gunzipSync(bytes) : bytes).toString();
        if (answer.statusCode === 200) resolve(text);
        else reject(new Error(`${path} answered ${answer.statusCode}: ${text.slice(0, 200)}`));
      });
    });
    sent.on("error", (error: NodeJS.ErrnoException) => {
      if (sent.reusedSocket && error.code === "ECONNRESET") resolve(null);
      else reject(error);
    });
    sent.end(body);
  });
}

/** The first requests of a new server load code; they are made and not counted. */
export async function oneByOne(count: number, ask: () => Promise<number>): Promise<number[]> {
  for (let i = 0; i < 5; i++) await ask();
  const found: number[] = [];
  for (let i = 0; i < count; i++) found.push(await ask());
  return found;
}

/** At a steady pace, whatever the answers take; a late answer does not hold the next request back. */
export async function steadily(
  ask: () => Promise<number>,
  { aSecond, seconds }: { aSecond: number; seconds: number },
): Promise<number[]> {
  const answers: Promise<number>[] = [];
  const begun = performance.now();
  for (let i = 0; i < aSecond * seconds; i++) {
    const wait = begun + (i * 1000) / aSecond - performance.now();
    if (wait > 0) await pause(wait);
    answers.push(ask());
  }
  return Promise.all(answers);
}

/** Answers a second while so many callers ask again as soon as they are answered. */
export async function saturated(
  ask: () => Promise<number>,
  { callers, seconds }: { callers: number; seconds: number },
): Promise<{ done: number; aSecond: number }> {
  const begun = performance.now();
  const until = begun + seconds * 1000;
  let done = 0;
  const caller = async () => {
    while (performance.now() < until) {
      await ask();
      done++;
    }
  };
  await Promise.all(Array.from({ length: callers }, caller));
  return { done, aSecond: (done * 1000) / (performance.now() - begun) };
}

/** The least value that at least this share of all values does not exceed. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}
