import { use } from "react";
import { presentable } from "../../../lib/capability/gate-outcome";
import { unbroken } from "../../../lib/format/figures";
import { calendarDay } from "../../../lib/format/times";
import { Filled } from "../../fittings/filled";
import { StateShape } from "../../fittings/state-word";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import type { Studied } from "../studied";
import { PRESENTABLE_TONES, ReachVerdict } from "../verdicts";
import styles from "./detail.module.css";

/** The sentence that may be said, large, and the readings it speaks of. */
export function Claim({ found, zone }: { found: Studied; zone: string }) {
  const { capability, claims } = use(words());
  const { claim: said } = capability;
  const { study, firstAt, lastAt, excludedReadings } = found.result;
  const kind = presentable(study);
  const isOneDay =
    firstAt !== null && lastAt !== null && calendarDay(firstAt, zone) === calendarDay(lastAt, zone);
  return (
    <section className={`${styles.claim} ${styles[kind]}`} aria-labelledby="claim-heading">
      <h2 id="claim-heading" className={styles.claimHead}>
        <StateShape tone={PRESENTABLE_TONES[kind]} />
        {claims.presentable[kind]}
      </h2>
      <p className={styles.claimWords}>{unbroken(study.claim)}</p>
      <ReachVerdict study={study} feature={found.history.feature} />
      <p className={styles.claimData}>
        <Filled
          text={isOneDay ? said.onDay(study.count) : said.between(study.count)}
          holes={{
            first: <When at={firstAt} zone={zone} as="day" />,
            last: <When at={lastAt} zone={zone} as="day" />,
          }}
        />
        {excludedReadings > 0 ? said.leftOut(excludedReadings) : ""}.
      </p>
    </section>
  );
}
