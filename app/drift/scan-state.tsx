import { use } from "react";
import type { LatestScan } from "../../db/queries/drift";
import { fixed } from "../../lib/format/numbers";
import { Filled } from "../fittings/filled";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import type { ScanNow } from "../jobs/scans";
import { words } from "../language/language";
import { beginScan, cancelScan } from "./actions";
import styles from "./drift.module.css";
import { LookAgain } from "./look-again";
import { ScanButton } from "./scan-button";

/** As of when the page speaks, and whether a newer scan is being made. */
export function ScanState({
  scan,
  isOutdated,
  now,
  zone,
  maySteer,
}: {
  scan: LatestScan | null;
  isOutdated: boolean;
  now: ScanNow;
  zone: string;
  /** Whether the person may cancel a scan and begin it again. */
  maySteer: boolean;
}) {
  const { state: said } = use(words()).driftPage;
  const { cancelled } = now;
  const isCancelled = cancelled !== null && now.step === null && isOutdated;
  const isComing = !isCancelled && (isOutdated || now.step !== null);
  const doing = now.step === null ? said.soon : said.percent(now.step.say, Math.round(100 * now.step.share));
  return (
    <>
      {scan === null ? null : (
        <p>
          <Filled
            text={said.asOf({
              sources: scan.result.scanned,
              parts: scan.result.partLots.length,
              measurements: scan.measurements,
              seconds: fixed(scan.durationMs / 1000, 1),
            })}
            holes={{ when: <When at={scan.computedAt} zone={zone} /> }}
          />
        </p>
      )}
      {isComing ? (
        <div className={styles.scanState}>
          <StateWord state="running">
            {scan === null ? said.first : said.newer}: {doing}
          </StateWord>
          {maySteer && now.step !== null ? (
            <ScanButton action={cancelScan} working={said.cancelling}>
              {said.cancel}
            </ScanButton>
          ) : null}
          <LookAgain />
        </div>
      ) : null}
      {isCancelled ? (
        <div className={styles.scanState}>
          <p>
            <StateWord state="cancelled">{said.cancelled(cancelled.by)}</StateWord>{" "}
            <Filled
              text={said.cancelledAt(scan === null)}
              holes={{ when: <When at={cancelled.at} zone={zone} /> }}
            />
          </p>
          {maySteer ? (
            <ScanButton action={beginScan} working={said.beginning}>
              {said.scanNow}
            </ScanButton>
          ) : null}
        </div>
      ) : null}
      {now.fault === null ? null : (
        <p role="status">
          <StateWord state="failed">{said.failed}</StateWord>: {now.fault}. {said.again(scan === null)}
        </p>
      )}
    </>
  );
}
