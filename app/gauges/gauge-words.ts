import { GATE_REQUIREMENTS } from "../../lib/capability/gates";
import { percent } from "../../lib/capability/words";
import { unbroken } from "../../lib/format/figures";
import { asEntered, inDigits, withUnit } from "../../lib/format/numbers";
import type { CalibrationStanding } from "../../lib/measurement-systems/calibration";
import { inShownUnit, type LengthDisplay } from "../../lib/units/length";
import type { Words } from "../../lib/words/words";
import type { Tone } from "../fittings/state-word";

export const CALIBRATION_TONES: Record<CalibrationStanding["state"], Tone> = {
  good: "done",
  due: "watch",
  overdue: "act",
  "not-stated": "none",
};

type ShareWord = keyof Words["gauges"]["shares"];

/** Good, usable under conditions, or too much, by the share of the tolerance; the words and shape that say it. */
export function shareStanding(share: number): { tone: Tone; word: ShareWord } {
  if (share <= GATE_REQUIREMENTS.gaugeGood) return { tone: "done", word: "good" };
  if (share <= GATE_REQUIREMENTS.gaugeConditional) return { tone: "watch", word: "conditional" };
  return { tone: "act", word: "too much" };
}

/** A share with the digits that tell it from a threshold, and a space that does not break. */
export function shareWords(share: number): string {
  return unbroken(percent(share));
}

/** The thresholds behind the words, for the foot of a table. */
export function shareLegend({ legend }: Words["gauges"]): string {
  return legend(shareWords(GATE_REQUIREMENTS.gaugeGood), shareWords(GATE_REQUIREMENTS.gaugeConditional));
}

/** "1.7 µm + L/300", L in mm and the result in µm. */
export function statedWords({ A, K }: { A: number; K: number }): string {
  return Number.isFinite(K) ? `${asEntered(A)} µm + L/${asEntered(K)}` : `${asEntered(A)} µm`;
}

/** A gauge's step, which its record has in mm, in the unit in which pages show lengths. */
export function stepWords(resolution: number, lengths: LengthDisplay): string {
  const { unit, length } = inShownUnit("mm", lengths);
  return withUnit(inDigits(length(resolution), 3), unit);
}
