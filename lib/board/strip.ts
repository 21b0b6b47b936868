import type { Tolerance } from "../plan/feature-plan";

/**
 * The geometry of a tolerance strip: one thin bar on which every feature's tolerance is equally wide, so
 * that a column of strips can be compared at a glance whatever their sizes and units.
 *
 * All positions are fractions of the strip's width, 0 at its left end. The tolerance reaches from
 * `MARGIN` to 1 − `MARGIN`; what lies beyond it shows in the margins, and what lies beyond those is held
 * at the end and marked.
 */
export type StripGeometry = {
  /** What the scale comes from. */
  scale: "tolerance" | "limits" | "means" | "nothing";
  tolerance: Bar | null;
  /** Control limits of the latest subgroup. */
  limits: Bar | null;
  centre: number | null;
  /** The latest subgroup means, oldest first. */
  ticks: Tick[];
};

/** `open` ends have no limit there; the bar fades out instead of stopping. */
export type Bar = { from: number; to: number; openFrom: boolean; openTo: boolean };

export type Tick = {
  at: number;
  /** Subgroups since: 0 for the newest. */
  age: number;
  /** 1 for the newest, falling to `OLDEST` for the oldest. */
  strength: number;
  /** Outside the tolerance, or beyond the end of the strip. */
  outside: "below" | "above" | null;
  clipped: boolean;
};

export const MARGIN = 0.1;
export const OLDEST = 0.18;

export type StripFacts = {
  tolerance: Tolerance;
  /** A limit set by physics, such as 0 for form; it stands in for a missing tolerance limit's place. */
  naturalBound: number | null;
  limits: { lower: number; centre: number; upper: number } | null;
  means: readonly number[];
};

/** Positions of everything on the strip; see `StripGeometry`. */
export function stripGeometry(facts: StripFacts): StripGeometry {
  const { tolerance, limits, means } = facts;
  const { scale, lower, upper } = span(facts);
  const place = (value: number) =>
    upper > lower ? MARGIN + ((value - lower) / (upper - lower)) * (1 - 2 * MARGIN) : 0.5;
  const held = (at: number) => Math.min(1, Math.max(0, at));

  return {
    scale,
    tolerance: scale === "tolerance" ? toleranceBar(facts) : null,
    limits: limits && {
      from: held(place(limits.lower)),
      to: held(place(limits.upper)),
      openFrom: place(limits.lower) < 0,
      openTo: place(limits.upper) > 1,
    },
    centre: limits && held(place(limits.centre)),
    ticks: means.map((mean, i) => {
      const at = place(mean);
      return {
        at: held(at),
        age: means.length - 1 - i,
        strength: means.length === 1 ? 1 : OLDEST + ((1 - OLDEST) * i) / (means.length - 1),
        outside: outsideOf(mean, tolerance),
        clipped: at < 0 || at > 1,
      };
    }),
  };
}

function outsideOf(mean: number, { lower, upper }: Tolerance): Tick["outside"] {
  if (lower !== null && mean < lower) return "below";
  return upper !== null && mean > upper ? "above" : null;
}

/** The values that stand at the two margins. */
function span(facts: StripFacts): { scale: StripGeometry["scale"]; lower: number; upper: number } {
  const { tolerance, limits, means } = facts;
  const seen = [...means, ...(limits ? [limits.lower, limits.upper] : [])];
  if (tolerance.lower !== null || tolerance.upper !== null) {
    const [lower, upper] = toleranceSpan(facts, seen);
    return { scale: "tolerance", lower, upper };
  }
  if (limits && limits.upper > limits.lower) {
    // Limits take the middle half, so that a signal has room to show.
    const reach = (limits.upper - limits.lower) / 2;
    return { scale: "limits", lower: limits.lower - reach, upper: limits.upper + reach };
  }
  if (means.length === 0) return { scale: "nothing", lower: 0, upper: 0 };
  return { scale: "means", lower: Math.min(...means), upper: Math.max(...means) };
}

/**
 * With one limit missing, its place is taken by the natural bound, or else by the farthest value seen on
 * that side, so that the one limit there is keeps its place on every strip.
 */
function toleranceSpan({ tolerance, naturalBound }: StripFacts, seen: readonly number[]): [number, number] {
  const { lower, upper } = tolerance;
  if (lower !== null && upper !== null) return [lower, upper];
  const known = (lower ?? upper) as number;
  const isUpper = upper !== null;
  if (naturalBound !== null && (isUpper ? naturalBound < known : naturalBound > known)) {
    return isUpper ? [naturalBound, known] : [known, naturalBound];
  }
  const farthest = isUpper ? Math.min(known, ...seen) : Math.max(known, ...seen);
  // Nothing on the open side yet: any span will do, for only the limit itself is drawn.
  const other = farthest === known ? known + (isUpper ? -1 : 1) * Math.max(Math.abs(known), 1) : farthest;
  return isUpper ? [other, known] : [known, other];
}

function toleranceBar({ tolerance, naturalBound }: StripFacts): Bar {
  const { lower, upper } = tolerance;
  const isBoundBelow = lower === null && naturalBound !== null && naturalBound < (upper as number);
  const isBoundAbove = upper === null && naturalBound !== null && naturalBound > (lower as number);
  return {
    from: lower !== null || isBoundBelow ? MARGIN : 0,
    to: upper !== null || isBoundAbove ? 1 - MARGIN : 1,
    openFrom: lower === null && !isBoundBelow,
    openTo: upper === null && !isBoundAbove,
  };
}
