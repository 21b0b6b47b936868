import type { LatestScan } from "../../db/queries/drift";
import { counted, fixed, whole } from "../../lib/format/numbers";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import type { ScanNow } from "../jobs/scans";
import { LookAgain } from "./look-again";

/** As of when the page speaks, and whether a newer scan is being made. */
export function ScanState({
  scan,
  isOutdated,
  now,
  zone,
}: {
  scan: LatestScan | null;
  isOutdated: boolean;
  now: ScanNow;
  zone: string;
}) {
  const isComing = isOutdated || now.step !== null;
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
        <p>
          <StateWord state="running">
            {scan === null ? "The first scan is being made" : "A newer scan is being made"}: {doing}
          </StateWord>
          <LookAgain />
        </p>
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
