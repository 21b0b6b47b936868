import type { FlagRow } from "../../db/queries/drift";
import type { Band } from "../../lib/board/bands";
import { datedSentence } from "../../lib/drift/flag-words";
import { counted, fixed } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { StateShape } from "../fittings/state-word";
import { When } from "../fittings/when";
import styles from "./drift.module.css";
import type { ScanNames } from "./scan-names";

/** The sources that moved, the clearest first, with one sentence each. */
export function MovedList({
  flags,
  names,
  zone,
  bandOf,
  hrefOf,
  chosen,
}: {
  flags: readonly FlagRow[];
  names: ScanNames;
  zone: string;
  bandOf: (flag: FlagRow) => Band;
  hrefOf: (flag: number) => string;
  chosen: number | null;
}) {
  return (
    <ol className={styles.moved}>
      {flags.map((flag) => {
        const { id, source, latest, openedAt, faintScans } = flag;
        return (
          <li key={id} className={styles.movedRow}>
            <div className={styles.movedHead}>
              <StateShape tone={TONES[bandOf(flag)]} />
              <span className={styles.movedKind}>{source.kind}</span>
              <Link
                href={hrefOf(id)}
                className={styles.movedCode}
                aria-current={id === chosen ? "true" : undefined}
              >
                {source.kind === "temperature" ? "20 °C" : source.id}
              </Link>
            </div>
            <div className={styles.movedWords}>
              <p className={styles.sentence}>{datedSentence(latest, names.dayOf(latest.onset.at))}</p>
              <p className={styles.remark}>
                First named <When at={openedAt} zone={zone} />.
                {faintScans > 0
                  ? ` ${counted(faintScans, "scan")} since had too little evidence for it; it closes by itself after three.`
                  : ""}
              </p>
            </div>
            <dl className={styles.figures}>
              <div>
                <dt>confidence</dt>
                <dd>{confidenceWords(latest.confidence)}</dd>
              </div>
              {latest.magnitude.inSigma === null ? null : (
                <div>
                  <dt>size</dt>
                  <dd>{fixed(latest.magnitude.inSigma, 1)} sigma</dd>
                </div>
              )}
              {latest.kind === "spread" ? null : (
                <div>
                  <dt>features</dt>
                  <dd>
                    {latest.features.length} of {latest.features.length + latest.unmoved.length}
                  </dd>
                </div>
              )}
            </dl>
          </li>
        );
      })}
    </ol>
  );
}

const TONES = { act: "act", watch: "watch", quiet: "calm" } as const;

/** Never "100 %": no evidence is that good. */
function confidenceWords(confidence: number): string {
  return confidence > 0.999 ? "above 99.9 %" : `${fixed(100 * confidence, 1)} %`;
}
