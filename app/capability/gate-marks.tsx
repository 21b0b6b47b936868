import { use } from "react";
import { gateOutcome } from "../../lib/capability/gate-outcome";
import type { Gate } from "../../lib/capability/gates";
import { StateShape } from "../fittings/state-word";
import { words } from "../language/language";
import styles from "./capability.module.css";

/** The gates of a study side by side: a tick passed, a diamond failed, an empty square not known. */
export function GateMarks({ gates }: { gates: readonly Gate[] }) {
  const { claims } = use(words());
  return (
    <ul className={styles.gateMarks}>
      {gates.map((gate) => {
        const { tone, word } = gateOutcome(gate, claims);
        return (
          <li key={gate.gate} className={gate.passed === false ? styles.failed : undefined}>
            <StateShape tone={tone} />
            {claims.gates[gate.gate]}
            <span className="only-read-out"> {word}</span>
          </li>
        );
      })}
    </ul>
  );
}

/** What the three shapes say, once above a table of them. */
export function GateLegend() {
  const { claims, capability } = use(words());
  return (
    <ul className={styles.gateLegend} aria-label={capability.table.legend}>
      {[true, false, null].map((passed) => {
        const { tone, word } = gateOutcome({ passed }, claims);
        return (
          <li key={word}>
            <StateShape tone={tone} />
            {word}
          </li>
        );
      })}
    </ul>
  );
}
