import type { LatestScan } from "../../db/queries/drift";
import { counted, fixed, whole } from "../../lib/format/numbers";
import { Note } from "../fittings/note";
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
  return (
    <>
      {scan === null ? null : (
        <p>
          As of <When at={scan.computedAt} zone={zone} />: {counted(scan.result.scanned, "source")} on{" "}
          {counted(scan.result.partLots.length, "part")} over their last 60 lots, {whole(scan.measurements)}{" "}
          measurements, {fixed(scan.durationMs / 1000, 1)} s.
        </p>
      )}
      {isOutdated || now.step !== null ? (
        <Note
          kind="not-yet"
          title={scan === null ? "The first scan is being made" : "A newer scan is being made"}
        >
          {now.step === null
            ? "It begins in a moment"
            : `It is ${now.step.say}, ${Math.round(100 * now.step.share)} % done`}
          {scan === null ? "." : ", since something happened after what stands below."} The page shows it by
          itself.
          <LookAgain />
        </Note>
      ) : null}
      {now.fault === null ? null : (
        <Note kind="broken" title="The latest scan could not be made">
          {scan === null ? "" : "What stands below is from before. "}It is tried again within a minute:{" "}
          {now.fault}.
        </Note>
      )}
    </>
  );
}
