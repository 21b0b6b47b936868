import { use } from "react";
import type { AnsweredFlag } from "../../db/queries/drift";
import { sourceKey } from "../../lib/drift/measured-part";
import { nameOf } from "../../lib/drift/sentence";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { fixed } from "../../lib/format/numbers";
import { momentIn } from "../../lib/format/times";
import type { SourceKind } from "../../lib/measurements/series";
import { Num } from "../fittings/num";
import { SourceChip } from "../fittings/source-chip";
import { Table } from "../fittings/table";
import { words } from "../language/language";
import styles from "./drift.module.css";
import { afreshSources } from "./grid-view";

/** Quiet sources, and beside each the smallest shift that would have been seen: silence is worth no more than that. */
export function QuietList({
  scan,
  answered,
  zone,
}: {
  scan: StoredScan;
  answered: readonly AnsweredFlag[];
  zone: string;
}) {
  const { driftPage, drift, times, trade } = use(words());
  const said = driftPage.quiet;
  const quiet = scan.sources.filter(({ source, flagged }) => !flagged && source.kind !== "lot");
  const lots = scan.sources.filter(({ source, flagged }) => !flagged && source.kind === "lot").length;
  const small = new Set(scan.silent.map(({ source }) => sourceKey(source)));
  const seenWords = ({ source, logEvidence, threshold, rivalOf, smallestShift }: Verdict) => {
    if (rivalOf !== null) return said.rival(nameOf(rivalOf, drift));
    // Log evidence is from before anything was explained.
    if (logEvidence >= threshold) return small.has(sourceKey(source)) ? said.small : said.explained;
    return smallestShift === null ? said.cannot : said.seen(fixed(smallestShift, 1));
  };
  const rows: QuietRow[] = quiet.map((one) => ({ ...one, seen: seenWords(one), ran: one.lots.length }));
  const known = new Set(scan.sources.map(({ source }) => sourceKey(source)));
  for (const { source, answer } of afreshSources(scan, answered)) {
    if (known.has(sourceKey(source))) continue;
    const seen = said.afresh(trade.events[answer.event], momentIn(answer.at, zone, times));
    rows.push({ source, seen, logEvidence: null, threshold: null, ran: 0 });
  }
  return (
    <div className={styles.folds}>
      <details>
        <summary>
          <span className={styles.foldTitle}>{said.title(quiet.length)}</span>
          <span className={styles.soft}>{said.how}</span>
        </summary>
        <div className={styles.folded}>
          <Table
            caption={said.caption(quiet.length)}
            rows={rows}
            rowKey={({ source }) => `${source.kind} ${source.id}`}
            columns={[
              {
                key: "source",
                head: said.heads.source,
                tight: true,
                cell: ({ source }) => <SourceName source={source} />,
              },
              {
                key: "seen",
                head: said.heads.seen,
                cell: ({ seen }) => seen,
              },
              {
                key: "evidence",
                head: said.heads.evidence,
                figures: true,
                cell: ({ logEvidence }) => <Num value={logEvidence} places={1} signed />,
              },
              {
                key: "needed",
                head: said.heads.needed,
                figures: true,
                cell: ({ threshold }) => <Num value={threshold} places={1} signed />,
              },
              {
                key: "lots",
                head: said.heads.lots,
                figures: true,
                cell: ({ ran }) => ran || "–",
              },
            ]}
          />
          <p className={styles.remark}>{said.lots(lots)}</p>
        </div>
      </details>
      {scan.silent.length > 0 ? (
        <details>
          <summary>
            <span className={styles.foldTitle}>{said.silent(scan.silent.length)}</span>
            <span className={styles.soft}>{said.silentWhy}</span>
          </summary>
          <ul className={styles.plainList}>
            {scan.silent.map(({ source, onsetLot, effectInSigma }) => (
              <li key={`${source.kind} ${source.id} ${onsetLot}`}>
                {said.since(nameOf(source, drift), onsetLot)}
                {effectInSigma === null ? "" : driftPage.evidence.by(fixed(effectInSigma, 1))}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      {scan.leftOut.length > 0 ? (
        <details>
          <summary>
            <span className={styles.foldTitle}>{said.leftOut(scan.leftOut.length)}</span>
            <span className={styles.soft}>{said.andWhy}</span>
          </summary>
          <ul className={styles.plainList}>
            {scan.leftOut.map(({ part, feature, reason }) => (
              <li key={`${part} ${feature}`}>
                {feature === null ? said.allOf(part) : `${feature}, ${part}`}: {reason}
              </li>
            ))}
          </ul>
        </details>
      ) : null}
    </div>
  );
}

type Verdict = StoredScan["sources"][number];

/** A source, and what its silence is worth. */
type QuietRow = {
  source: Verdict["source"];
  seen: string;
  logEvidence: number | null;
  threshold: number | null;
  ran: number;
};

export function SourceName({ source }: { source: { kind: string; id: string } }) {
  const { quiet: said } = use(words()).driftPage;
  if (source.kind === "temperature") return <>{said.temperature}</>;
  if (source.kind === "process") return <>{said.piecesOf(source.id)}</>;
  return <SourceChip kind={source.kind as SourceKind | "lot"} code={source.id} />;
}
