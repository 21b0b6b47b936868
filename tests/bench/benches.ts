import { boards } from "./boards";
import { client } from "./client";
import { drift } from "./drift";
import { intake } from "./intake";
import { post } from "./post";
import { rebuild } from "./rebuild";
import { serving } from "./serving";
import { sheets } from "./sheets";
import type { Timing } from "./timing";

export type BenchOptions = {
  /** An empty folder that is removed afterwards. */
  folder: string;
  /** A folder that stays, for large data that the next run shall find; null when all is to be made anew. */
  kept: string | null;
  runs: number;
  /** Size of the data; each bench has its own where none is given. */
  rows: number | undefined;
  /** A script to run beside, in place of the bench's own. */
  peer: string | undefined;
  python: string;
};

export type BenchResult = {
  /** What was timed, in a line. */
  about: string;
  timings: Timing[];
  ratios: { label: string; value: number; bar?: string }[];
  /** What could not be run, and why; what a figure leaves out. */
  remarks: string[];
};

export type Bench = { times: string; run(options: BenchOptions): Promise<BenchResult> };

/** Every bench by the name it is called by; each is a file of its own in this folder. */
export const BENCHES: Record<string, Bench> = {
  intake,
  rebuild,
  serving,
  client,
  boards,
  post,
  drift,
  sheets,
};
