import { nameOf } from "../../lib/drift/sentence";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { counted, fixed } from "../../lib/format/numbers";
import type { SourceKind } from "../../lib/measurements/series";
import { Num } from "../fittings/num";
import { SourceChip } from "../fittings/source-chip";
import { Table } from "../fittings/table";
import styles from "./drift.module.css";

/** Quiet sources, and beside each the smallest shift that would have been seen: silence is worth no more than that. */
export function QuietList({ scan }: { scan: StoredScan }) {
  const quiet = scan.sources.filter(({ source, flagged }) => !flagged && source.kind !== "lot");
  const lots = scan.sources.filter(({ source, flagged }) => !flagged && source.kind === "lot").length;
  return (
    <div className={styles.folds}>
      <details>
        <summary>
          <span className={styles.foldTitle}>{counted(quiet.length, "source")} without a change</span>
          <span className={styles.soft}>and how small a change would have been seen</span>
        </summary>
        <div className={styles.folded}>
          <Table
            caption={`${counted(quiet.length, "quiet source")}, most evidence first`}
            rows={quiet}
            rowKey={({ source }) => `${source.kind} ${source.id}`}
            columns={[
              {
                key: "source",
                head: "Source",
                tight: true,
                cell: ({ source }) => <SourceName source={source} />,
              },
              {
                key: "seen",
                head: "A step of one feature is seen from",
                cell: ({ smallestShift, rivalOf }) =>
                  rivalOf === null
                    ? smallestShift === null
                      ? "cannot be told: nothing ran beside it or before it"
                      : `${fixed(smallestShift, 1)} sigma; smaller when several features move together`
                    : `cannot be told from ${nameOf(rivalOf)}, which moved: they ran on the same pieces`,
              },
              {
                key: "evidence",
                head: "Log evidence",
                figures: true,
                cell: ({ logEvidence }) => <Num value={logEvidence} places={1} signed />,
              },
              {
                key: "needed",
                head: "Needed",
                figures: true,
                cell: ({ threshold }) => <Num value={threshold} places={1} signed />,
              },
              { key: "lots", head: "Lots", figures: true, cell: ({ lots: ran }) => ran.length || "–" },
            ]}
          />
          <p className={styles.remark}>
            {counted(lots, "lot")} of the window {lots === 1 ? "was" : "were"} looked at as well, and none of
            them stands out by its material beyond those named above.
          </p>
        </div>
      </details>
      {scan.silent.length > 0 ? (
        <details>
          <summary>
            <span className={styles.foldTitle}>
              {counted(scan.silent.length, "change")} found and not flagged
            </span>
            <span className={styles.soft}>too small to matter, or on a single feature</span>
          </summary>
          <ul className={styles.plainList}>
            {scan.silent.map(({ source, onsetLot, effectInSigma }) => (
              <li key={`${source.kind} ${source.id} ${onsetLot}`}>
                {nameOf(source)} since {onsetLot}
                {effectInSigma === null ? "" : `, by ${fixed(effectInSigma, 1)} sigma`}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      {scan.leftOut.length > 0 ? (
        <details>
          <summary>
            <span className={styles.foldTitle}>{counted(scan.leftOut.length, "feature")} not scanned</span>
            <span className={styles.soft}>and why</span>
          </summary>
          <ul className={styles.plainList}>
            {scan.leftOut.map(({ part, feature, reason }) => (
              <li key={`${part} ${feature}`}>
                {feature === null ? `All of ${part}` : `${feature}, ${part}`}: {reason}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}

export function SourceName({ source }: { source: { kind: string; id: string } }) {
  if (source.kind === "temperature") return <>part temperature</>;
  if (source.kind === "process") return <>all pieces of {source.id}</>;
  return <SourceChip kind={source.kind as SourceKind | "lot"} code={source.id} />;
}
