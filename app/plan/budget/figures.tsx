import { fixed } from "../../../lib/format/numbers";
import { fill } from "../../../lib/words/fill";
import { Num } from "../../fittings/num";
import styles from "./budget.module.css";

/** A figure with fixed decimals; one that was simulated has a sign before it and its standard error in words. */
export function SimulatedFigure({
  value,
  standardError,
  places,
  absent,
  simulated,
}: {
  value: number | null;
  /** Null where the figure is exact. */
  standardError: number | null;
  places: number;
  absent: string;
  /** What stands with a simulated figure: "simulated, standard error {error}". */
  simulated: string;
}) {
  if (value === null || standardError === null) return <Num value={value} places={places} absent={absent} />;
  const words = fill(simulated, { error: fixed(standardError, places + 1) });
  return (
    <span title={words}>
      <span className={styles.about} aria-hidden="true">
        ≈{" "}
      </span>
      <Num value={value} places={places} />
      <span className="only-read-out">, {words}</span>
    </span>
  );
}
