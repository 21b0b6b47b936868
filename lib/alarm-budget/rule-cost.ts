import { type AlarmFreeRun, falseAlarms, type RulesOnChart, rateOf } from "../run-length/false-alarms";
import { type RunLengthAt, rulesRunLengths } from "../run-length/rules-run-length";

/** A simulated figure carries the standard error of its mean, an exact one null. */
export type Figure = { value: number; standardError: number | null };

/** What one feature's rule set costs in false alarms and gives in notice. */
export type RuleCost = {
  /** False alarms of both charts in 1,000 subgroups. */
  perThousand: Figure;
  /** Subgroups until the location chart signals, that one counted; `subgroups` is null when hardly ever. */
  detection: { shift: number; subgroups: Figure | null }[];
};

/** In sigma of the plotted point: few enough to be read beside the rules. */
export const SHIFTS_BESIDE_RULES: readonly number[] = [1, 2, 3];

/**
 * What a rule set costs, whatever the measuring rate: false alarms in 1,000 subgroups, and how many subgroups
 * a lasting shift goes unnoticed.
 *
 *   per thousand = 1000 / (subgroups per false alarm of both charts),  standard error likewise, to first order
 *
 * Source: as `falseAlarms` and `rulesRunLengths`.
 *
 * @throws InvalidInput as they do
 */
export function ruleCost({ chart, subgroupSize, rules, simulation }: RulesOnChart): RuleCost {
  const { together } = falseAlarms({ chart, subgroupSize, rules, simulation });
  return {
    perThousand: perThousandOf(together),
    detection: rulesRunLengths({ rules, shifts: SHIFTS_BESIDE_RULES, simulation }).map(detectionOf),
  };
}

function perThousandOf(run: AlarmFreeRun): Figure {
  const rate = rateOf(run);
  const { standardError } = run;
  return {
    value: 1000 * rate,
    standardError: standardError === null ? null : 1000 * standardError * rate ** 2,
  };
}

function detectionOf({ shift, mean, standardError }: RunLengthAt): RuleCost["detection"][number] {
  return { shift, subgroups: mean === null ? null : { value: mean, standardError } };
}
