import type { GaugedFeatureRow, GaugeRow, StudyRow } from "../../db/queries/gauges";
import { counted } from "../../lib/format/numbers";
import { calendarDayWords } from "../../lib/format/times";
import { type CalibrationStanding, calibrationWords } from "../../lib/measurement-systems/calibration";
import type { LengthDisplay } from "../../lib/units/length";
import { Link } from "../fittings/link";
import { StateShape } from "../fittings/state-word";
import { Table } from "../fittings/table";
import {
  CALIBRATION_TONES,
  KIND_WORDS,
  shareStanding,
  shareWords,
  statedWords,
  stepWords,
} from "./gauge-words";
import styles from "./gauges.module.css";

export type GaugeLine = {
  gauge: GaugeRow;
  standing: CalibrationStanding;
  features: readonly GaugedFeatureRow[];
  /** In force. */
  studies: readonly StudyRow[];
};

export function GaugeTable({ rows, lengths }: { rows: readonly GaugeLine[]; lengths: LengthDisplay }) {
  return (
    <Table
      caption={counted(rows.length, "gauge")}
      rows={rows}
      rowKey={({ gauge }) => gauge.id}
      columns={[
        {
          key: "code",
          head: "Gauge",
          cell: ({ gauge }) => (
            <>
              <Link href={`/gauges/${gauge.id}`} className={styles.name ?? ""}>
                {gauge.code}
              </Link>
              <span className={styles.under}>
                {" "}
                {gauge.record?.what || gauge.notes || "no record yet"}
                {gauge.record?.portable ? ", portable" : ""}
                {gauge.retired ? ", retired" : ""}
              </span>
            </>
          ),
        },
        {
          key: "resolution",
          head: "Resolution",
          tight: true,
          cell: ({ gauge: { record } }) =>
            record?.resolution == null ? <Missing /> : stepWords(record.resolution, lengths),
        },
        {
          key: "error",
          head: "Permissible error",
          tight: true,
          cell: ({ gauge: { record } }) => (record?.stated ? statedWords(record.stated) : <Missing />),
        },
        { key: "due", head: "Calibration", cell: (row) => <Calibration {...row} /> },
        {
          key: "studies",
          head: "Studies in force",
          cell: ({ studies }) => (studies.length === 0 ? "none" : <Studies studies={studies} />),
        },
        {
          key: "features",
          head: "What it does to its features",
          cell: ({ features }) => <span className={styles.wide}>{effectWords(features)}</span>,
        },
      ]}
    />
  );
}

function Missing() {
  return <span className={styles.under}>not entered</span>;
}

function Calibration({ gauge: { record }, standing }: GaugeLine) {
  return (
    <>
      <span className={styles.state}>
        <StateShape tone={CALIBRATION_TONES[standing.state]} />
        {calibrationWords(standing)}
      </span>
      {record?.calibrationDue ? (
        <div className={styles.under}>{calendarDayWords(record.calibrationDue)}</div>
      ) : null}
    </>
  );
}

function Studies({ studies }: { studies: readonly StudyRow[] }) {
  return studies.map((study, i) => (
    <span key={study.id}>
      {i > 0 ? ", " : ""}
      <Link href={`/gauges/studies/${study.id}`}>{KIND_WORDS[study.kind]}</Link>
    </span>
  ));
}

/** The largest share first, for it decides; then how many it leaves in which standing. */
function effectWords(features: readonly GaugedFeatureRow[]): string {
  if (features.length === 0) return "Measures no feature at present.";
  const known = features.flatMap(({ feature, share }) => (share ? [{ feature, share: share.share }] : []));
  const worst = [...known].sort((a, b) => b.share - a.share)[0];
  if (!worst) return `${counted(features.length, "feature")}; what it takes of their tolerance is not known.`;
  const counts = new Map<string, number>();
  for (const { share } of known) {
    const { word } = shareStanding(share);
    counts.set(word, (counts.get(word) ?? 0) + 1);
  }
  const unknown = features.length - known.length;
  const parts = [
    ...[...counts].map(([word, count]) => `${count} ${word}`),
    ...(unknown > 0 ? [`${unknown} not known`] : []),
  ];
  return `${counted(features.length, "feature")}: ${parts.join(", ")}. At most ${shareWords(worst.share)} of a tolerance, on ${worst.feature.name} of ${worst.feature.part.number}.`;
}
