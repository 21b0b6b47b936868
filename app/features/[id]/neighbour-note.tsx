import type { FeatureHistory } from "../../../db/queries/history";
import {
  type FalseAlarmGrowth,
  falseAlarmGrowth,
  type SigmaSource,
} from "../../../lib/autocorrelation/false-alarm-growth";
import { isCorrelated, neighboursOf, standardisedPoints } from "../../../lib/evaluation/assumptions";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { fixed, whole } from "../../../lib/format/numbers";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { Note } from "../../fittings/note";

/** A standard error of about 4 %: what matters is whether it is twice or ten times as many. */
const SIMULATION = { seed: 1, runs: 500 };
/** Beyond this a series hardly comes back to its centre, and no factor says anything. */
const MOST_CORRELATED = 0.95;

/** A warning where neighbouring points resemble each other: run rules then give more false alarms. */
export function NeighbourNote({ history, evaluation }: { history: FeatureHistory; evaluation: Evaluation }) {
  const neighbours = neighboursOf(standardisedPoints(evaluation));
  const { rules, chart } = history.setup.plan;
  if (!isCorrelated(neighbours) || neighbours.r <= 0 || rules.length === 0) return null;
  const { r, p, count } = neighbours;
  const growth =
    r <= MOST_CORRELATED
      ? growthOf(rules, { r, sigmaFrom: chart === "i-mr" ? "moving-range" : "overall" })
      : null;
  return (
    <Note kind="remark" title="Neighbouring points resemble each other">
      <p>
        {growth
          ? growth.sentence
          : `Neighbouring points resemble each other closely (r = ${fixed(r, 2)}): run rules, which take them to be independent, say little here.`}
      </p>
      <p>
        Test of the correlation of neighbours in {whole(count)} points: p{" "}
        {p < 0.001 ? "below 0.001" : `= ${fixed(p, 3)}`} (NIST/SEMATECH e-Handbook 1.3.5.12). A shift or a
        drift makes neighbours alike as well: look for those first. What is left is the process's own memory,
        such as a bath or a tool that changes slowly.
        {growth ? " The factor is simulated with a first-order model and the run rules in force." : ""}
      </p>
    </Note>
  );
}

/** Kept, since every look at the page would simulate it again; r to two digits is as good as it is known. */
const known = new Map<string, FalseAlarmGrowth>();
const MOST_KNOWN = 500;

function growthOf(
  slugs: readonly string[],
  { r, sigmaFrom }: { r: number; sigmaFrom: SigmaSource },
): FalseAlarmGrowth {
  const rounded = Math.round(100 * r) / 100;
  const key = `${[...slugs].sort().join()} ${rounded} ${sigmaFrom}`;
  const found = known.get(key);
  if (found) return found;
  const growth = falseAlarmGrowth({
    rules: slugs.map(ruleBySlug),
    r: rounded,
    sigmaFrom,
    simulation: SIMULATION,
  });
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, growth);
  return growth;
}
