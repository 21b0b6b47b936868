/** The curves of which a quantile is sought, on x from `from` (0 or −∞) upwards. */
export type Curves = {
  cdf(x: number): number;
  upperTail(x: number): number;
  density(x: number): number;
};

const MOST_STEPS = 200;

/**
 * The x at which the smaller tail has the wanted probability, for distributions without a closed quantile.
 *
 * Newton's method on the logarithm of the smaller tail, where the curve is all but straight far out, kept
 * inside a bracket that halves when a step leaves it. The tail is the one that was asked for when it is at
 * most one half; the other one otherwise, so that no digit is lost.
 *
 * @param start any guess; on a positive support a positive one, and the search then is in ln x
 * @param isPositive whether the support starts at 0
 */
export function solveQuantile(
  { cdf, upperTail, density }: Curves,
  {
    tail,
    probability,
    start,
    isPositive,
  }: { tail: "lower" | "upper"; probability: number; start: number; isPositive: boolean },
): number {
  // The tail that is sought and its probability, after taking the smaller one.
  const isLower = (tail === "lower") === probability <= 0.5;
  const wanted = Math.log(probability <= 0.5 ? probability : 1 - probability);
  const curve = isLower ? cdf : upperTail;
  const sign = isLower ? 1 : -1;
  // Rising in x: 0 at the solution.
  const excess = (x: number) => {
    const found = curve(x);
    return sign * ((found > 0 ? Math.log(found) : -1e6) - wanted);
  };

  let low = isPositive ? 0 : Number.NEGATIVE_INFINITY;
  let high = Number.POSITIVE_INFINITY;
  let x = start;
  for (let k = 0; k < MOST_STEPS; k++) {
    const off = excess(x);
    if (off === 0) return x;
    if (off > 0) high = x;
    else low = x;
    const slope = density(x) / curve(x);
    let next = isPositive ? x * Math.exp(-off / (slope * x)) : x - off / slope;
    if (!(next > low && next < high)) next = between({ low, high, x, isPositive });
    if (Math.abs(next - x) <= 4e-16 * Math.abs(x)) return next;
    x = next;
  }
  return x;
}

/** Inside the bracket; far out while one end is still open. */
function between({
  low,
  high,
  x,
  isPositive,
}: {
  low: number;
  high: number;
  x: number;
  isPositive: boolean;
}): number {
  if (high === Number.POSITIVE_INFINITY) return isPositive ? x * 4 : x + 1 + Math.abs(x);
  if (low === Number.NEGATIVE_INFINITY) return x - 1 - Math.abs(x);
  if (isPositive) return low === 0 ? x / 16 : Math.sqrt(low * high);
  return low + (high - low) / 2;
}
