import "server-only";
import type { Database } from "../../../db/connection";
import { type FeatureHistory, type HistoryMark, historyMark, laterMark } from "../../../db/queries/history";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { joinSignals, type Pattern } from "../../../lib/evaluation/patterns";
import { plant } from "../../plant";
import { historyShown } from "../../shown/lengths";

/** A feature's history and what the judge says of it. */
export type JudgedFeature = { history: FeatureHistory; evaluation: Evaluation; patterns: Pattern[] };

type Held = { id: number; lengths: string; mark: HistoryMark; judged: JudgedFeature };

/** A shorter history is read and judged in a few milliseconds. */
const LONG = 20_000;
const HOLD_MS = 60_000;

type Holder = { steadyrestJudged?: Held | null; steadyrestJudgedEnding?: NodeJS.Timeout };
// Pages and endpoints are bundled apart, each with its own copy of this module.
const holder = globalThis as Holder;

/**
 * Reads and judges a feature's history; null when there is no such feature.
 *
 * Whoever moves over a long history asks for the same one many times within seconds, and reading and judging a million
 * readings is nearly all of what an answer costs. So the last long one is held until a minute has passed without anybody
 * asking, as long as nothing is written of that feature; what lines post of others does not matter.
 */
export async function judgedFeature(database: Database, id: number): Promise<JudgedFeature | null> {
  const { lengths } = await plant();
  const held = holder.steadyrestJudged;
  const known = held?.id === id && held.lengths === lengths ? held : null;
  const later = known && (await laterMark(database, { id, mark: known.mark }));
  if (known && later) {
    hold({ ...known, mark: later });
    return known.judged;
  }
  const mark = await historyMark(database, id);
  const judged = await judgedNow(database, id);
  if (judged && judged.history.series.count >= LONG) hold({ id, lengths, mark, judged });
  return judged;
}

async function judgedNow(database: Database, id: number): Promise<JudgedFeature | null> {
  const history = await historyShown(database, id);
  if (!history) return null;
  const evaluation = evaluate(history.series, history.setup);
  return { history, evaluation, patterns: joinSignals(evaluation.signals) };
}

function hold(found: Held): void {
  holder.steadyrestJudged = found;
  clearTimeout(holder.steadyrestJudgedEnding);
  holder.steadyrestJudgedEnding = setTimeout(() => {
    holder.steadyrestJudged = null;
  }, HOLD_MS).unref();
}

/** Computes what follows from a judged history once, and forgets it with the history. */
export function onceJudged<Result>(
  compute: (judged: JudgedFeature) => Result,
): (judged: JudgedFeature) => Result {
  const known = new WeakMap<JudgedFeature, { result: Result }>();
  return (judged) => {
    const found = known.get(judged) ?? { result: compute(judged) };
    known.set(judged, found);
    return found.result;
  };
}
