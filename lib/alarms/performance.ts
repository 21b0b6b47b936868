import { OPERATOR_RATES } from "../alarm-budget/operator-rates";
import { InvalidInput } from "../checks";
import { percentile } from "../summary/percentile";

/** One alarm as its record has it. Times are UTC milliseconds. */
export type AnsweredAlarm = {
  featureId: number;
  raisedAt: number;
  /** The first time that somebody acknowledged it; null while nobody has. */
  acknowledgedAt: number | null;
  closedAt: number | null;
  /** The cause that was named last; null while none is. */
  cause: string | null;
};

export type Waiting = {
  count: number;
  /** Half of them took no longer, nine of ten no longer; null without any. */
  medianMs: number | null;
  ninetyMs: number | null;
};

export type AlarmPerformance = {
  raised: number;
  perShift: number;
  perOperatorHour: number;
  /** Where the rate lies: up to what is acceptable, up to the most that can be managed, beyond. */
  level: "acceptable" | "heavy" | "too many";
  toAcknowledge: Waiting;
  toClose: Waiting;
  /** The most frequent first, of equals the lower id. */
  frequent: { featureId: number; raised: number; share: number; noCause: number }[];
};

/** Causes that say that nothing was found, in whatever letters: an alarm that may have been false. */
const NOTHING_FOUND = /^no cause|^nothing found|^unknown/i;

/**
 * How the alarms of a stretch of running time were answered.
 *
 *   per shift          raised / shifts worked
 *   per operator hour  raised / (hours worked × people who take alarms up)
 *
 * against the averages that ISA-18.2 gives for one operator (see operator-rates). Waiting times are those of the
 * alarms that were acknowledged or closed, from when they were raised; their 50 and 90 % quantiles lie between two
 * in proportion. Those still waiting are not in it, so read it beside the number that are.
 *
 * Source: ANSI/ISA-18.2-2016, alarm performance metrics (from memory), for rates, the most frequent and stale ones;
 * the rest is common practice, no source.
 *
 * @throws InvalidInput when hours, shifts or operators are not above 0, or an alarm was answered before it was raised
 */
export function alarmPerformance(
  alarms: readonly AnsweredAlarm[],
  { hours, shifts, operators, most }: { hours: number; shifts: number; operators: number; most: number },
): AlarmPerformance {
  for (const [field, value] of Object.entries({ hours, shifts, operators })) {
    if (!(Number.isFinite(value) && value > 0))
      throw new InvalidInput("alarmPerformance", field, value, "above 0");
  }
  const raised = alarms.length;
  const perOperatorHour = raised / (hours * operators);
  return {
    raised,
    perShift: raised / shifts,
    perOperatorHour,
    level:
      perOperatorHour <= OPERATOR_RATES.acceptable.perHour
        ? "acceptable"
        : perOperatorHour <= OPERATOR_RATES.mostManageable.perHour
          ? "heavy"
          : "too many",
    toAcknowledge: waiting(alarms, "acknowledgedAt"),
    toClose: waiting(alarms, "closedAt"),
    frequent: frequent(alarms).slice(0, most),
  };
}

function waiting(alarms: readonly AnsweredAlarm[], until: "acknowledgedAt" | "closedAt"): Waiting {
  const times = alarms.flatMap(({ raisedAt, [until]: at }) => (at === null ? [] : [at - raisedAt]));
  for (const time of times)
    if (time < 0) throw new InvalidInput("alarmPerformance", until, time, "not before the alarm was raised");
  const of = (p: number) => (times.length === 0 ? null : percentile(times, { p, rule: "n-plus-one" }));
  return { count: times.length, medianMs: of(0.5), ninetyMs: of(0.9) };
}

function frequent(alarms: readonly AnsweredAlarm[]): AlarmPerformance["frequent"] {
  const byFeature = new Map<number, { raised: number; noCause: number }>();
  for (const { featureId, cause } of alarms) {
    const known = byFeature.get(featureId) ?? { raised: 0, noCause: 0 };
    known.raised++;
    if (cause !== null && NOTHING_FOUND.test(cause)) known.noCause++;
    byFeature.set(featureId, known);
  }
  return [...byFeature]
    .map(([featureId, counts]) => ({ featureId, ...counts, share: counts.raised / alarms.length }))
    .sort((a, b) => b.raised - a.raised || a.featureId - b.featureId);
}
