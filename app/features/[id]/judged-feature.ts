import "server-only";
import type { Database } from "../../../db/connection";
import { featureById } from "../../../db/queries/features";
import { measuredSince } from "../../../db/queries/grown-history";
import { type FeatureHistory, type HistoryMark, historyMark, laterMark } from "../../../db/queries/history";
import { evaluate } from "../../../lib/evaluation/evaluate";
import { evaluateGrown } from "../../../lib/evaluation/evaluate-grown";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { joinSignals, type Pattern } from "../../../lib/evaluation/patterns";
import { grownSeries } from "../../../lib/measurements/grown";
import { plant } from "../../plant";
import { historyShown, measurementsShown } from "../../shown/lengths";

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
 * asking, as long as nothing is written of that feature but what is measured later: with that the judge goes on. What
 * lines post of others does not matter.
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
  const grown = known && (await grownSince(database, known));
  if (grown) {
    hold(grown);
    return grown.judged;
  }
  const mark = await historyMark(database, id);
  const judged = await judgedNow(database, id);
  if (judged && judged.history.series.count >= LONG) hold({ id, lengths, mark, judged });
  return judged;
}

/** The same with what has been measured since; null when it has to be read and judged anew. */
async function grownSince(database: Database, held: Held): Promise<Held | null> {
  const { id, mark, judged } = held;
  const { history } = judged;
  const since = await measuredSince(database, { id, mark, known: history.series });
  const feature = since && (await featureById(database, id));
  if (!since || !feature) return null;
  const series = grownSeries(history.series, await measurementsShown(since.measured, feature.unit));
  const evaluation = evaluateGrown(judged.evaluation, series, history.setup);
  return (
    evaluation && {
      ...held,
      mark: since.mark,
      judged: { history: { ...history, series }, evaluation, patterns: joinSignals(evaluation.signals) },
    }
  );
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
