import type { BaselineWindow } from "./baseline-preview";
import type { Points } from "./evaluation";
import { TRIAL_SUBGROUPS } from "./setup";

/**
 * A baseline to begin choosing from: 25 subgroups that count, the first ones for a feature without frozen
 * limits (those its trial limits rest on), else the latest. All there are while there are fewer. Null
 * without any.
 *
 * It is only where the choice starts; which subgroups were one steady process is for a person to say.
 */
export function suggestedBaseline(
  { count, excluded }: Pick<Points, "count" | "excluded">,
  { isFirst }: { isFirst: boolean },
): BaselineWindow | null {
  const counting: number[] = [];
  for (let i = 0; i < count && counting.length < TRIAL_SUBGROUPS; i++) {
    const number = isFirst ? i : count - 1 - i;
    if (excluded[number] === 0) counting.push(number);
  }
  if (counting.length === 0) return null;
  return { from: Math.min(...counting), to: Math.max(...counting) };
}
