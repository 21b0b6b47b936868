import { whole } from "../../../lib/format/numbers";
import styles from "./budget.module.css";

/** The way to the figures of the alarm budget, and what they leave out. */
export function HowBudgetComputed({ runs }: { runs: number }) {
  const lines: [term: string, words: string, source: string][] = [
    [
      "False alarms per shift",
      "Sum over the features of subgroups per shift / subgroups per false alarm. The second is the average run length with nothing wrong, of the location chart and the spread chart together: the rules that hold on spread are reckoned on the true, skewed distribution of the range or the standard deviation. An EWMA or CUSUM that also watches adds one in its own average run length. Counts are reckoned as normal readings without a chart of spread.",
      "Common practice, no source",
    ],
    [
      "Subgroups per shift",
      "Readings of the last two weeks / subgroup size / shifts in which anything was measured. Closed days and idle nights do not count.",
      "Common practice, no source",
    ],
    [
      "Average run length",
      "Exact where the rules can be followed as a Markov chain of what all of them remember together, as all rules about zones and sides can; trends and alternations alone or beside limits by an integral equation.",
      "C. W. Champ and W. H. Woodall, Technometrics 29 (1987) 393-399 (from memory)",
    ],
    [
      "Figures with ≈",
      `Other sets are simulated with the code that judges measured points, ${whole(runs)} run lengths a figure from a fixed seed. The standard error, about 2 % of the figure, is read when the pointer rests on it.`,
      "Standard error of a mean",
    ],
    [
      "What it leaves out",
      "Readings are taken as normal and independent, and limits as the true ones. Neighbours that are alike and limits from a short baseline give more false alarms than this says. That signals of one run of bad luck join into one alarm gives somewhat fewer.",
      "C. P. Quesenberry, Journal of Quality Technology 25 (1993) 237-247 (from memory)",
    ],
    [
      "One operator",
      "About 6 alarms an hour on average are very likely to be acceptable, about 12 the most that can be managed. The figures come from control rooms; where an alarm means walking to a machine, fewer can be taken up.",
      "ANSI/ISA-18.2-2016 (from memory); IEC 62682 has the same",
    ],
  ];
  return (
    <details className={styles.fold}>
      <summary>How is this computed</summary>
      <dl className={styles.lines}>
        {lines.map(([term, words, source]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>
              {words} <span className={styles.source}>{source}</span>
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
