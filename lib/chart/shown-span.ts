import type { Tolerance } from "../plan/feature-plan";
import { type Span, spanOf } from "./scale";

/** Wider apart than this times the readings' own width, limits would press the readings into a line. */
const WIDEST = 25;

/**
 * The span a picture shows: all readings and the tolerance, unless that is so wide that the readings would
 * be a line; then the readings alone, and the limits outside are said in words.
 */
export function shownSpan(data: Span, { lower, upper }: Tolerance): { span: Span; isWhole: boolean } {
  const limits = [lower, upper].filter((limit) => limit !== null);
  const whole = spanOf([data.low, data.high, ...limits], { margin: 0.06 });
  const isWhole = whole.high - whole.low <= WIDEST * (data.high - data.low) || limits.length === 0;
  return isWhole
    ? { span: whole, isWhole }
    : { span: spanOf([data.low, data.high], { margin: 0.3 }), isWhole };
}
