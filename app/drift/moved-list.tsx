import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import type { Band } from "../../lib/board/bands";
import { datedSentence } from "../../lib/drift/flag-words";
import { fixed } from "../../lib/format/numbers";
import type { Words } from "../../lib/words/words";
import { Filled } from "../fittings/filled";
import { Link } from "../fittings/link";
import { StateShape } from "../fittings/state-word";
import { When } from "../fittings/when";
import { words } from "../language/language";
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
  const { driftPage: said, drift, figures, trade } = use(words());
  return (
    <ol className={styles.moved}>
      {flags.map((flag) => {
        const { id, source, latest, openedAt, faintScans } = flag;
        return (
          <li key={id} className={styles.movedRow}>
            <div className={styles.movedHead}>
              <StateShape tone={TONES[bandOf(flag)]} />
              <span className={styles.movedKind}>{trade.sources[source.kind]}</span>
              <Link
                href={hrefOf(id)}
                className={styles.movedCode}
                aria-current={id === chosen ? "true" : undefined}
              >
                {source.kind === "temperature" ? "20 °C" : source.id}
              </Link>
            </div>
            <div className={styles.movedWords}>
              <p className={styles.sentence}>
                {datedSentence(latest, names.dayOf(latest.onset.at), { drift })}
              </p>
              <p className={styles.remark}>
                <Filled text={said.firstNamed} holes={{ when: <When at={openedAt} zone={zone} /> }} />
                {faintScans > 0 ? ` ${said.faint(faintScans)}` : ""}
              </p>
            </div>
            <dl className={styles.figures}>
              <div>
                <dt>{said.confidence}</dt>
                <dd>{confidenceWords(latest.confidence, said)}</dd>
              </div>
              {latest.magnitude.inSigma === null ? null : (
                <div>
                  <dt>{said.size}</dt>
                  <dd>
                    {fixed(latest.magnitude.inSigma, 1)} {figures.sigma}
                  </dd>
                </div>
              )}
              {latest.kind === "spread" ? null : (
                <div>
                  <dt>{said.features}</dt>
                  <dd>{said.of(latest.features.length, latest.features.length + latest.unmoved.length)}</dd>
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
function confidenceWords(confidence: number, { above }: Words["driftPage"]): string {
  return confidence > 0.999 ? above(`${fixed(99.9, 1)} %`) : `${fixed(100 * confidence, 1)} %`;
}
