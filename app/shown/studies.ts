import "server-only";
import { shownHistory } from "../../lib/units/shown-feature";
import { shownStudy } from "../../lib/units/shown-study";
import type { Studied } from "../capability/studied";
import { plant } from "../plant";

/** A study for a reader. It is computed in the feature's own unit, and so is what is signed of it. */
export async function studyShown({ history, result, gauge }: Studied): Promise<Studied> {
  const { lengths } = await plant();
  return {
    history: shownHistory(history, lengths),
    result: shownStudy(result, history.feature.unit, lengths),
    gauge,
  };
}
