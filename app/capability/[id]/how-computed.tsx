import { GATE_WORDS } from "../../../lib/capability/gate-outcome";
import type { Gate } from "../../../lib/capability/gates";
import { percent } from "../../../lib/capability/words";
import { Fold } from "../../fittings/fold";
import { FormulaList } from "../../fittings/formula-list";
import { StateShape } from "../../fittings/state-word";
import styles from "./detail.module.css";
import type { FormulaLine } from "./formula-lines";

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
  return (
    <Fold summary="How is this computed?">
      <p>
        Every line is worked with the numbers of this window. They are shown rounded and used in full, so a
        last digit may differ when one follows on paper.
      </p>
      <FormulaList
        workings={[
          ...lines.map(({ figure, formula, numbers, source, rests = [] }) => ({
            figure,
            lines: [formula, numbers],
            source,
            rests: <Assumptions gates={gates.filter(({ gate }) => rests.includes(gate))} />,
          })),
          {
            figure: "Intervals",
            lines: [
              `Two-sided ${percent(confidence)}: Cp, Pp and Cpm by chi-square, Cpk and Ppk by Bissell's approximation, the one-sided indices exactly by the noncentral t.`,
            ],
            source: "NIST/SEMATECH e-Handbook 6.1.6; Bissell 1990; Owen 1962 (the last two from memory)",
          },
          {
            figure: "Normality",
            lines: ["A² = −n − (1/n) Σ (2i − 1) [ln Φ(zᵢ) + ln(1 − Φ(zₙ₊₁₋ᵢ))]"],
            source: "D'Agostino and Stephens, Goodness-of-Fit Techniques (1986), table 4.9 (from memory)",
          },
          {
            figure: "Pictures",
            lines: [
              "Bins twice the interquartile range over ∛n wide, made whole steps of the readings. Places on the normal scale are medians of order statistics, mᵢ = (i − 0.3175) / (n + 0.365); the band is their beta distribution.",
            ],
            source:
              "Freedman and Diaconis 1981 (from memory); Filliben 1975, as in NIST/SEMATECH e-Handbook 1.3.3.21",
          },
        ]}
      />
    </Fold>
  );
}

/** Which assumptions of a figure hold for this feature, by the gates that ask for them. */
function Assumptions({ gates }: { gates: readonly Gate[] }) {
  if (gates.length === 0) return null;
  return (
    <span className={styles.assumes}>
      <span>Assumes</span>
      {gates.map(({ gate, passed }) => (
        <span key={gate}>
          <StateShape tone={passed === null ? "none" : passed ? "done" : "act"} />
          {GATE_WORDS[gate]}: {passed === null ? "not known" : passed ? "holds" : "fails"}
        </span>
      ))}
    </span>
  );
}
