import { use } from "react";
import type { GaugedFeatureRow, GaugeRow, StudyRow } from "../../db/queries/gauges";
import { calendarDayWords } from "../../lib/format/times";
import { type CalibrationStanding, calibrationWords } from "../../lib/measurement-systems/calibration";
import type { LengthDisplay } from "../../lib/units/length";
import type { Words } from "../../lib/words/words";
import { Link } from "../fittings/link";
import { StateShape } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { words } from "../language/language";
import { CALIBRATION_TONES, shareStanding, shareWords, statedWords, stepWords } from "./gauge-words";
import styles from "./gauges.module.css";

export type GaugeLine = {
  gauge: GaugeRow;
  standing: CalibrationStanding;
  features: readonly GaugedFeatureRow[];
  /** In force. */
  studies: readonly StudyRow[];
};

export function GaugeTable({ rows, lengths }: { rows: readonly GaugeLine[]; lengths: LengthDisplay }) {
  const { gauges } = use(words());
  const { table: said } = gauges;
  return (
    <Table
      caption={said.caption(rows.length)}
      rows={rows}
      rowKey={({ gauge }) => gauge.id}
      columns={[
        {
          key: "code",
          head: said.heads.code,
          cell: ({ gauge }) => (
            <>
              <Link href={`/gauges/${gauge.id}`} className={styles.name ?? ""}>
                {gauge.code}
              </Link>
              <span className={styles.under}>
                {" "}
                {gauge.record?.what || gauge.notes || said.noRecord}
                {gauge.record?.portable ? said.portable : ""}
                {gauge.retired ? said.retired : ""}
              </span>
            </>
          ),
        },
        {
          key: "resolution",
          head: said.heads.resolution,
          tight: true,
          cell: ({ gauge: { record } }) =>
            record?.resolution == null ? <Missing /> : stepWords(record.resolution, lengths),
        },
        {
          key: "error",
          head: said.heads.error,
          tight: true,
          cell: ({ gauge: { record } }) => (record?.stated ? statedWords(record.stated) : <Missing />),
        },
        { key: "due", head: said.heads.due, cell: (row) => <Calibration {...row} /> },
        {
          key: "studies",
          head: said.heads.studies,
          cell: ({ studies }) => (studies.length === 0 ? said.none : <Studies studies={studies} />),
        },
        {
          key: "features",
          head: said.heads.features,
          cell: ({ features }) => <span className={styles.wide}>{effectWords(features, gauges)}</span>,
        },
      ]}
    />
  );
}

function Missing() {
  return <span className={styles.under}>{use(words()).gauges.notEntered}</span>;
}

function Calibration({ gauge: { record }, standing }: GaugeLine) {
  const { board, times } = use(words());
  return (
    <>
      <span className={styles.state}>
        <StateShape tone={CALIBRATION_TONES[standing.state]} />
        {calibrationWords(standing, board.calibrationStates)}
      </span>
      {record?.calibrationDue ? (
        <div className={styles.under}>{calendarDayWords(record.calibrationDue, times)}</div>
      ) : null}
    </>
  );
}

function Studies({ studies }: { studies: readonly StudyRow[] }) {
  const { kinds } = use(words()).gauges;
  return studies.map((study, i) => (
    <span key={study.id}>
      {i > 0 ? ", " : ""}
      <Link href={`/gauges/studies/${study.id}`}>{kinds[study.kind]}</Link>
    </span>
  ));
}

/** The largest share first, for it decides; then how many it leaves in which standing. */
function effectWords(
  features: readonly GaugedFeatureRow[],
  { table: said, shares, notKnown }: Words["gauges"],
): string {
  if (features.length === 0) return said.noFeatures;
  const known = features.flatMap(({ feature, share }) => (share ? [{ feature, share: share.share }] : []));
  const worst = [...known].sort((a, b) => b.share - a.share)[0];
  if (!worst) return said.unknown(features.length);
  const counts = new Map<keyof typeof shares, number>();
  for (const { share } of known) {
    const { word } = shareStanding(share);
    counts.set(word, (counts.get(word) ?? 0) + 1);
  }
  const unknown = features.length - known.length;
  const parts = [
    ...[...counts].map(([word, count]) => said.standing(count, shares[word])),
    ...(unknown > 0 ? [said.standing(unknown, notKnown)] : []),
  ];
  return said.effect({
    features: features.length,
    parts: parts.join(", "),
    most: shareWords(worst.share),
    feature: worst.feature.name,
    part: worst.feature.part.number,
  });
}
