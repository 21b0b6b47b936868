import { presentable } from "../../../lib/capability/gate-outcome";
import { unbroken } from "../../../lib/format/figures";
import { counted } from "../../../lib/format/numbers";
import { dayIn } from "../../../lib/format/times";
import { StateShape } from "../../fittings/state-word";
import { When } from "../../fittings/when";
import type { Studied } from "../studied";
import styles from "./detail.module.css";

const CLAIM_TONES = { capability: "done", performance: "act", none: "none" } as const;

const CLAIM_HEADS = {
  capability: "Presentable as capability",
  performance: "Performance only",
  none: "No index",
} as const;

/** The sentence that may be said, large, and the readings it speaks of. */
export function Claim({ found, zone }: { found: Studied; zone: string }) {
  const { study, firstAt, lastAt, excludedReadings } = found.result;
  const kind = presentable(study);
  const isOneDay = firstAt !== null && lastAt !== null && dayIn(firstAt, zone) === dayIn(lastAt, zone);
  return (
    <section className={`${styles.claim} ${styles[kind]}`} aria-labelledby="claim-heading">
      <h2 id="claim-heading" className={styles.claimHead}>
        <StateShape tone={CLAIM_TONES[kind]} />
        {CLAIM_HEADS[kind]}
      </h2>
      <p className={styles.claimWords}>{unbroken(study.claim)}</p>
      <p className={styles.claimData}>
        {counted(study.count, "reading")} from <When at={firstAt} zone={zone} as="day" />
        {isOneDay ? null : (
          <>
            {" "}
            to <When at={lastAt} zone={zone} as="day" />
          </>
        )}
        {excludedReadings > 0
          ? `; ${counted(excludedReadings, "reading")} left out with an assigned cause`
          : ""}
        .
      </p>
    </section>
  );
}
