import type { LatestScan } from "../../db/queries/drift";
import { counted, fixed, whole } from "../../lib/format/numbers";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import type { ScanNow } from "../jobs/scans";
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
  const { cancelled } = now;
  const isCancelled = cancelled !== null && now.step === null && isOutdated;
  const isComing = !isCancelled && (isOutdated || now.step !== null);
  const doing =
    now.step === null
      ? "beginning in a moment"
      : `${now.step.say}, ${Math.round(100 * now.step.share)} % done`;
  return (
    <>
      {scan === null ? null : (
        <p>
          As of <When at={scan.computedAt} zone={zone} />: {counted(scan.result.scanned, "source")} on{" "}
          {counted(scan.result.partLots.length, "part")} over their last 60 lots, {whole(scan.measurements)}{" "}
          measurements, {fixed(scan.durationMs / 1000, 1)} s.
        </p>
      )}
      {isComing ? (
        <div className={styles.scanState}>
          <StateWord state="running">
            {scan === null ? "The first scan is being made" : "A newer scan is being made"}: {doing}
          </StateWord>
          {maySteer && now.step !== null ? (
            <ScanButton action={cancelScan} working="Cancelling …">
              Cancel the scan
            </ScanButton>
          ) : null}
          <LookAgain />
        </div>
      ) : null}
      {isCancelled ? (
        <div className={styles.scanState}>
          <p>
            <StateWord state="cancelled">{cancelled.by} cancelled the scan</StateWord> at{" "}
            <When at={cancelled.at} zone={zone} />.{" "}
            {scan === null ? "It" : "What stands below is from before; it"} begins anew with the next
            measurements.
          </p>
          {maySteer ? (
            <ScanButton action={beginScan} working="Beginning …">
              Scan now
            </ScanButton>
          ) : null}
        </div>
      ) : null}
      {now.fault === null ? null : (
        <p role="status">
          <StateWord state="failed">The latest scan could not be made</StateWord>: {now.fault}. It is tried
          again within a minute{scan === null ? "." : "; what stands below is from before."}
        </p>
      )}
    </>
  );
}
