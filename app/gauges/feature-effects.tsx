import type { GaugedFeatureRow, GaugeRow } from "../../db/queries/gauges";
import { counted, inDigits, toleranceWords, withUnit } from "../../lib/format/numbers";
import {
  classesInProcess,
  converted,
  gaugedWidth,
  lengthOf,
} from "../../lib/measurement-systems/gauge-share";
import { errorAgainstTolerance } from "../../lib/measurement-systems/permissible-error";
import { inShownUnit, type LengthDisplay } from "../../lib/units/length";
import { Fold } from "../fittings/fold";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Num } from "../fittings/num";
import { StateShape } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { shareStanding, shareWords } from "./gauge-words";
import styles from "./gauges.module.css";

/** What a gauge does to each feature it measures: share of the tolerance, classes, uncertainty ratio, resolution. */
export function FeatureEffects({
  gauge,
  features,
  lengths,
}: {
  gauge: GaugeRow;
  features: readonly GaugedFeatureRow[];
  lengths: LengthDisplay;
}) {
  return (
    <>
      <Table<GaugedFeatureRow>
        caption={counted(features.length, "feature")}
        rows={[...features].sort((a, b) => (b.share?.share ?? -1) - (a.share?.share ?? -1))}
        rowKey={({ feature }) => feature.id}
        empty={<Note kind="empty">No feature's latest measurement was made by this gauge.</Note>}
        columns={[
          {
            key: "feature",
            head: "Feature",
            cell: ({ feature }) => (
              <>
                <Link href={`/features/${feature.id}`} className={styles.name ?? ""}>
                  {feature.name}
                </Link>
                <span className={styles.under}> {feature.part.number}</span>
              </>
            ),
          },
          {
            key: "tolerance",
            head: "Tolerance",
            tight: true,
            cell: ({ feature }) => toleranceWords(feature.plan.tolerance, feature),
          },
          { key: "share", head: "Share of tolerance", tight: true, cell: Share },
          {
            key: "ndc",
            head: "Classes told apart",
            figures: true,
            cell: ({ sigma, share }) => (
              <Num
                value={
                  sigma === null || share === null || share.sigma === null
                    ? null
                    : classesInProcess({ seen: sigma, gauge: share.sigma })
                }
                places={0}
              />
            ),
          },
          {
            key: "ratio",
            head: "Uncertainty ratio",
            figures: true,
            cell: (row) => <Num value={uncertaintyRatio(gauge, row)} places={1} alignTo={1} />,
          },
          {
            key: "resolution",
            head: "Step of tolerance",
            figures: true,
            cell: (row) => {
              const share = stepShare(gauge, row);
              return share === null ? <Num value={null} /> : shareWords(share);
            },
          },
          { key: "basis", head: "Known from", cell: (row) => <Basis {...row} lengths={lengths} /> },
        ]}
      />
      <Fold summary="How is this computed?">
        <ul>
          <li>
            Share of tolerance: 6σ of the gauge over U − L, from the newest crossed study on the feature, else
            the newest of the gauge; without one, 2E over U − L with E = A + L/K at the nominal. Where a
            natural bound stands in for a limit, the width runs from it to the limit. Source: AIAG,
            Measurement Systems Analysis, and ISO 10360-2 for E (from memory).
          </li>
          <li>
            Classes told apart: ⌊1.41 √(σ² − σ gauge²) / σ gauge⌋ with σ within subgroups of the running
            process. At least 5 are commonly asked for (AIAG, from memory).
          </li>
          <li>
            Uncertainty ratio: (U − L) / 4u with u = E/√3, 4 is the old rule of thumb (from memory). It counts
            the gauge alone: temperature, setup and form come on top.
          </li>
          <li>
            Step of tolerance: the gauge's resolution over U − L; at most a tenth is commonly asked for.
          </li>
        </ul>
      </Fold>
    </>
  );
}

function Share({ share }: GaugedFeatureRow) {
  if (share === null) return <span className={styles.under}>not known</span>;
  const { tone, word } = shareStanding(share.share);
  return (
    <span className={styles.state}>
      <StateShape tone={tone} />
      {shareWords(share.share)} {word}
    </span>
  );
}

function Basis({ share, lengths }: GaugedFeatureRow & { lengths: LengthDisplay }) {
  if (share === null) return "no study and no permissible error, or no width to compare with";
  const { basis } = share;
  if (basis.kind === "permissible-error") {
    const { unit, length } = inShownUnit("mm", lengths);
    return `permissible error at ${withUnit(inDigits(length(basis.length), 4), unit)}`;
  }
  return (
    <>
      <Link href={`/gauges/studies/${basis.id}`}>study {basis.id}</Link>
      {basis.isOfThisFeature ? ", on this feature" : ", on another feature"}
    </>
  );
}

/** U − L in mm; null where there is none or the feature is no length. */
function widthInMm({ feature }: GaugedFeatureRow): { width: number; toMm: number } | null {
  const width = gaugedWidth(feature.plan);
  const toMm = feature.unit === "none" ? null : converted(1, feature.unit, "mm");
  return width === null || toMm === null ? null : { width: width * toMm, toMm };
}

function uncertaintyRatio({ record }: GaugeRow, row: GaugedFeatureRow): number | null {
  const size = widthInMm(row);
  if (!record?.stated || !size || (record.stated.A === 0 && !Number.isFinite(record.stated.K))) return null;
  return errorAgainstTolerance({
    stated: record.stated,
    length: lengthOf(row.feature, size.toMm),
    toleranceWidth: size.width,
    further: 0,
  }).testUncertaintyRatio;
}

function stepShare({ record }: GaugeRow, row: GaugedFeatureRow): number | null {
  const size = widthInMm(row);
  return record?.resolution == null || !size ? null : record.resolution / size.width;
}
