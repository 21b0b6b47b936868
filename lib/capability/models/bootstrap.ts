import { InvalidInput, requireCount } from "../../checks";
import { randomStream } from "../../random/random-stream";
import { percentileOfSorted } from "../../summary/percentile";
import type { Interval } from "../intervals";
import type { Model, Parameters } from "./model";

/** How often a study is repeated on drawn readings. */
export const REPLICATES = 999;

/** Readings drawn at most: a second of work for the slowest model, whatever the size of the sample. */
const MOST_DRAWN = 400;

/**
 * How many readings to draw for a sample of `count`, and by how much figures drawn so scatter more than the sample's.
 *
 * From some hundred readings on, A² has its final distribution and an estimated index scatters as 1/√n about the
 * true one. So a large sample is studied on 400 readings, with `shrink` = √(400/n) taken off the scatter of an index.
 */
export function drawnFor(count: number): { drawn: number; shrink: number } {
  const drawn = Math.min(count, MOST_DRAWN);
  return { drawn, shrink: Math.sqrt(drawn / count) };
}

/** One repetition: the drawn readings in order, and the model fitted to them. */
export type Replicate = { sorted: Float64Array; parameters: Parameters };

/**
 * Repeats a study on readings drawn from the fitted model: what would the figures have been, had other pieces of
 * the same process been measured?
 *
 * Draws `count` readings from the model with the fitted parameters, fits the model to them, and hands both to
 * `each`. The same seed gives the same draws on every machine. Draws that cannot be fitted (all alike) are left
 * out.
 *
 * Source: B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap (1993), 6.5 (from memory).
 *
 * @throws InvalidInput when count or replicates is not a whole number of at least 2 or 1
 */
export function parametricBootstrap(
  {
    model,
    parameters,
    count,
    replicates,
    seed,
  }: { model: Model; parameters: Parameters; count: number; replicates: number; seed: number },
  each: (replicate: Replicate) => void,
): void {
  requireCount("parametricBootstrap", "count", count, 2);
  requireCount("parametricBootstrap", "replicates", replicates, 1);
  const stream = randomStream(seed, `bootstrap of ${model.name}`);
  const drawn = new Float64Array(count);
  for (let k = 0; k < replicates; k++) {
    for (let i = 0; i < count; i++) drawn[i] = model.draw(parameters, stream);
    const fitted = model.fit(drawn);
    if (fitted.ok) each({ sorted: Float64Array.from(drawn).sort(), parameters: fitted.value });
  }
}

/**
 * Interval and lower bound of a figure from its values in the replicates, by their percentiles.
 *
 * @throws InvalidInput without values or unless 0 < confidence < 1
 */
export function percentileBounds(
  values: readonly number[],
  confidence: number,
): { interval: Interval; lowerBound: number } {
  if (!(confidence > 0 && confidence < 1)) {
    throw new InvalidInput("percentileBounds", "confidence", confidence, "a probability between 0 and 1");
  }
  if (values.length === 0) throw new InvalidInput("percentileBounds", "values.length", 0, "at least 1");
  const sorted = Float64Array.from(values).sort();
  const at = (p: number) => percentileOfSorted(sorted, { p, rule: "n-plus-one" });
  const tail = (1 - confidence) / 2;
  return { interval: [at(tail), at(1 - tail)], lowerBound: at(1 - confidence) };
}
