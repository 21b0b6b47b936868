import { use } from "react";
import { significant } from "../../../../lib/format/figures";
import { Fold } from "../../../fittings/fold";
import { FormulaList } from "../../../fittings/formula-list";
import { words } from "../../../language/language";
import styles from "./study.module.css";

/** One figure: its formula, the same with this study's numbers, and where the formula is from. */
export type Formula = { figure: string; formula: string; numbers: string; source: string };

/** What must hold for the figures to mean what they say; null where nobody can tell from the readings. */
export type Assumption = { words: string; holds: boolean | null };

const DIGITS = 4;

/** A figure as it stands inside a formula. */
export function figure(value: number): string {
  return significant(value, DIGITS);
}

/** The way to each figure, and what it presumes. */
export function Formulas({
  formulas,
  assumptions,
}: {
  formulas: readonly Formula[];
  assumptions: readonly Assumption[];
}) {
  const { formulas: said } = use(words()).gaugeStudies;
  return (
    <Fold summary={said.how}>
      <p>{said.rounded}</p>
      <FormulaList
        workings={formulas.map(({ figure, formula, numbers, source }) => ({
          figure,
          lines: [formula, numbers],
          source,
        }))}
      />
      <h3>{said.presumes}</h3>
      <ul className={styles.remarks}>
        {assumptions.map(({ words: presumed, holds }) => (
          <li key={presumed}>
            <strong>{said.standings[holds === null ? "open" : holds ? "yes" : "no"]}:</strong> {presumed}
          </li>
        ))}
      </ul>
    </Fold>
  );
}
