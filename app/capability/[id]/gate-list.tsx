import { GATE_WORDS, gateOutcome } from "../../../lib/capability/gate-outcome";
import type { Gate } from "../../../lib/capability/gates";
import { unbroken } from "../../../lib/format/figures";
import { Link } from "../../fittings/link";
import { StateShape } from "../../fittings/state-word";
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
  return (
    <ul className={styles.gates}>
      {gates.map((gate) => {
        const { tone, word } = gateOutcome(gate);
        const way = wayOut(gate, { featureId, autoHref });
        return (
          <li key={gate.gate} className={styles.gate}>
            <p className={styles.gateName}>
              <StateShape tone={tone} />
              {GATE_WORDS[gate.gate]}
              <span className={styles.gateOutcome}>{word}</span>
            </p>
            <p className={styles.gateReason}>
              {unbroken(gate.reason)}
              {way ? (
                <>
                  {" "}
                  <Link href={way.href}>{way.words}</Link>
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
): { href: string; words: string } | null {
  if (passed === true) return null;
  const onlyMoreTell = gate === "normal" || gate === "distribution" || gate === "independent";
  if (passed === null && onlyMoreTell) return null;
  const chart = `/features/${featureId}`;
  switch (gate) {
    case "stable":
      return { href: chart, words: "Open its control chart" };
    case "enough":
      return { href: "/intake", words: "Take in measurements" };
    case "normal":
      return { href: autoHref, words: "Try a model chosen by kind and fit" };
    case "distribution":
      return { href: chart, words: "Look for mixed sources on its chart" };
    case "independent":
      return { href: chart, words: "See the run of its points" };
    case "resolution":
      return { href: `/plan/features/${featureId}`, words: "Resolution in the control plan" };
    case "gauge":
      return { href: "/gauges", words: "Gauges and their studies" };
  }
}
