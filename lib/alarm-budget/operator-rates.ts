import { InvalidInput } from "../checks";
import { inDigits } from "../format/numbers";
import { budget as english } from "../words/en/budget";

/** Alarms one operator can take up, per hour, on average over weeks. */
export type OperatorRate = { perHour: number };

/**
 * What one operator is held to manage, on average over weeks and all sources of alarms together:
 *
 *   about 6 an hour (1 in 10 minutes, some 150 a day)   very likely to be acceptable
 *   about 12 an hour (2 in 10 minutes, some 300 a day)  the most that can be managed
 *
 * Source: ANSI/ISA-18.2-2016, alarm performance metrics (from memory); IEC 62682 has the same figures. They
 * come from process control rooms; a shop where an alarm means walking to a machine can take fewer.
 */
export const OPERATOR_RATES = {
  acceptable: { perHour: 6 },
  mostManageable: { perHour: 12 },
} as const satisfies Record<string, OperatorRate>;

export type Load = {
  /** Where the expected rate lies: up to the first rate, up to the second, beyond. */
  level: "acceptable" | "heavy" | "too many";
  /** Share of the acceptable rate that false alarms alone use up. */
  shareOfAcceptable: number;
  /** One or two sentences with the numbers, and what to do. */
  sentence: string;
};

/**
 * How an expected number of false alarms per shift compares with what one operator can take up.
 *
 * False alarms are only a part of what arrives: real ones come on top, so that a share of a tenth is a
 * calm place and a share of one leaves no room for them.
 *
 * @param perShift expected false alarms in a shift of `shiftHours` hours, for one operator
 * @throws InvalidInput when a number is not finite, the first is below 0 or the hours are not above 0
 */
export function operatorLoad({
  perShift,
  shiftHours,
  words = english.load,
}: {
  perShift: number;
  shiftHours: number;
  /** Of the sentence; English where none are given. */
  words?: typeof english.load | undefined;
}): Load {
  if (!(Number.isFinite(perShift) && perShift >= 0)) {
    throw new InvalidInput("operatorLoad", "perShift", perShift, "0 or more");
  }
  if (!(Number.isFinite(shiftHours) && shiftHours > 0)) {
    throw new InvalidInput("operatorLoad", "shiftHours", shiftHours, "above 0");
  }
  const acceptable = OPERATOR_RATES.acceptable.perHour * shiftHours;
  const most = OPERATOR_RATES.mostManageable.perHour * shiftHours;
  const level = perShift <= acceptable ? "acceptable" : perShift <= most ? "heavy" : "too many";
  return {
    level,
    shareOfAcceptable: perShift / acceptable,
    sentence: words.sentence(shown(perShift), shown(shiftHours), shown(acceptable)) + words.advice[level],
  };
}

/** Two digits that count; whole numbers from ten on. */
function shown(value: number): string {
  return value >= 10 ? String(Math.round(value)) : inDigits(value, 2);
}
