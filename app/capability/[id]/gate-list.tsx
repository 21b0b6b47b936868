import { use } from "react";
import { gateOutcome } from "../../../lib/capability/gate-outcome";
import type { Gate } from "../../../lib/capability/gates";
import { unbroken } from "../../../lib/format/figures";
import { Link } from "../../fittings/link";
import { StateShape } from "../../fittings/state-word";
import { words } from "../../language/language";
import styles from "./detail.module.css";

/** Every gate with its reason, and the page on which somebody can do something about one that is not passed. */
export function GateList({
  gates,
  featureId,
  autoHref,
}: {
  gates: readonly Gate[];
  featureId: number;
  /** This page with a model chosen by kind and fit. */
  autoHref: string;
}) {
  const { claims, capability } = use(words());
  return (
    <ul className={styles.gates}>
      {gates.map((gate) => {
        const { tone, word } = gateOutcome(gate, claims);
        const href = wayOut(gate, { featureId, autoHref });
        return (
          <li key={gate.gate} className={styles.gate}>
            <p className={styles.gateName}>
              <StateShape tone={tone} />
              {claims.gates[gate.gate]}
              <span className={styles.gateOutcome}>{word}</span>
            </p>
            <p className={styles.gateReason}>
              {unbroken(gate.reason)}
              {href ? (
                <>
                  {" "}
                  <Link href={href}>{capability.waysOut[gate.gate]}</Link>
                </>
              ) : null}
            </p>
          </li>
        );
      })}
    </ul>
  );
}

/** Where a gate can be mended; null where nothing on these pages does it, or only more readings would tell. */
function wayOut(
  { gate, passed }: Gate,
  { featureId, autoHref }: { featureId: number; autoHref: string },
): string | null {
  if (passed === true) return null;
  const onlyMoreTell = gate === "normal" || gate === "distribution" || gate === "independent";
  if (passed === null && onlyMoreTell) return null;
  const chart = `/features/${featureId}`;
  switch (gate) {
    case "enough":
      return "/intake";
    case "normal":
      return autoHref;
    case "stable":
    case "distribution":
    case "independent":
      return chart;
    case "resolution":
      return `/plan/features/${featureId}`;
    case "gauge":
      return "/gauges";
  }
}
