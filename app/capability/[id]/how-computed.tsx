import { use } from "react";
import type { Gate } from "../../../lib/capability/gates";
import { percent } from "../../../lib/capability/words";
import { Fold } from "../../fittings/fold";
import { FormulaList } from "../../fittings/formula-list";
import { StateShape } from "../../fittings/state-word";
import { words } from "../../language/language";
import styles from "./detail.module.css";
import { type FormulaLine, NORMALITY_FORMULA } from "./formula-lines";

/** The way to each figure, with the numbers of this feature in it. */
export function HowComputed({
  lines,
  gates,
  confidence,
}: {
  lines: readonly FormulaLine[];
  gates: readonly Gate[];
  confidence: number;
}) {
  const { formulas: said } = use(words());
  return (
    <Fold summary={said.fold}>
      <p>{said.lead}</p>
      <FormulaList
        workings={[
          ...lines.map(({ figure, formula, numbers, source, rests = [] }) => ({
            figure,
            lines: [formula, numbers],
            source,
            rests: <Assumptions gates={gates.filter(({ gate }) => rests.includes(gate))} />,
          })),
          {
            figure: said.intervals.figure,
            lines: [said.intervals.line(percent(confidence))],
            source: said.intervals.source,
          },
          {
            figure: said.normality.figure,
            lines: [NORMALITY_FORMULA],
            source: said.normality.source,
          },
          {
            figure: said.pictures.figure,
            lines: [said.pictures.line],
            source: said.pictures.source,
          },
        ]}
      />
    </Fold>
  );
}

/** Which assumptions of a figure hold for this feature, by the gates that ask for them. */
function Assumptions({ gates }: { gates: readonly Gate[] }) {
  const { formulas: said, claims } = use(words());
  if (gates.length === 0) return null;
  return (
    <span className={styles.assumes}>
      <span>{said.assumes}</span>
      {gates.map(({ gate, passed }) => (
        <span key={gate}>
          <StateShape tone={passed === null ? "none" : passed ? "done" : "act"} />
          {claims.gates[gate]}: {passed === null ? said.notKnown : passed ? said.holds : said.fails}
        </span>
      ))}
    </span>
  );
}
