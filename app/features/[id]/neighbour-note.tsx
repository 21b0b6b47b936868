import { use } from "react";
import type { FeatureHistory } from "../../../db/queries/history";
import {
  type FalseAlarmGrowth,
  falseAlarmGrowth,
  type SigmaSource,
} from "../../../lib/autocorrelation/false-alarm-growth";
import { GATE_REQUIREMENTS } from "../../../lib/capability/gates";
import { isCorrelated, neighboursOf, standardisedPoints } from "../../../lib/evaluation/assumptions";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import { pOfTest } from "../../../lib/format/chance";
import { fixed } from "../../../lib/format/numbers";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import type { Words } from "../../../lib/words/words";
import { Note } from "../../fittings/note";
import { words } from "../../language/language";

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
  const all = use(words());
  const { neighbours: said } = all.otherCharts;
  const growth =
    r <= MOST_CORRELATED
      ? growthOf(rules, { r, sigmaFrom: chart === "i-mr" ? "moving-range" : "overall", words: all })
      : null;
  return (
    <Note kind="remark" title={said.title}>
      <p>{growth ? growth.sentence : said.closely(fixed(r, 2))}</p>
      <p>
        {said.test(count, pOfTest(p, all.assumptions))}
        {growth ? said.simulated : ""}
      </p>
      {r <= GATE_REQUIREMENTS.autocorrelation ? (
        <p>{said.forCapability(fixed(GATE_REQUIREMENTS.autocorrelation, 1))}</p>
      ) : null}
    </Note>
  );
}

/** Kept, since every look at the page would simulate it again; r to two digits is as good as it is known. */
const known = new Map<string, FalseAlarmGrowth>();
const MOST_KNOWN = 500;

function growthOf(
  slugs: readonly string[],
  { r, sigmaFrom, words }: { r: number; sigmaFrom: SigmaSource; words: Words },
): FalseAlarmGrowth {
  const rounded = Math.round(100 * r) / 100;
  const key = `${words.language} ${[...slugs].sort().join()} ${rounded} ${sigmaFrom}`;
  const found = known.get(key);
  if (found) return found;
  const growth = falseAlarmGrowth({
    rules: slugs.map(ruleBySlug),
    r: rounded,
    sigmaFrom,
    simulation: SIMULATION,
    words: words.otherCharts.neighbours,
  });
  if (known.size >= MOST_KNOWN) known.clear();
  known.set(key, growth);
  return growth;
}
