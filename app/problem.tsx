import type { Problem } from "../lib/computed";
import { counted } from "../lib/format/numbers";
import { Note } from "./fittings/note";

/** Where a figure would stand: why there is none yet, and what brings it. `figure` names it ("control limits"). */
export function ProblemNote({ problem, figure }: { problem: Problem; figure: string }) {
  return <Note kind="not-yet">{problemWords(problem, figure)}</Note>;
}

/** All wording of everyday shortages. */
export function problemWords(problem: Problem, figure: string): string {
  switch (problem.code) {
    case "too-few-readings":
      return `No ${figure} yet: ${problem.got} of at least ${counted(problem.needed, "measurement")}. They come with further measurements; nothing needs to be repaired.`;
    case "too-few-subgroups":
      return `No ${figure} yet: ${problem.got} of at least ${counted(problem.needed, "subgroup")}. They come with further subgroups; nothing needs to be repaired.`;
    case "no-variation":
      return `No ${figure}: all measurements are alike. The gauge may resolve too little to see the process vary; look at its resolution in the control plan.`;
    case "not-positive":
      return `No ${figure}: this model starts at zero, and one measurement is ${problem.least}. Choose another model, or look at that measurement.`;
    case "no-tolerance":
      return `No ${figure}: the control plan states no tolerance for this feature. An engineer can enter it there.`;
    case "one-sided":
      return `No ${figure}: the drawing gives no ${problem.missing} tolerance limit, so only the other side can be judged.`;
  }
}
