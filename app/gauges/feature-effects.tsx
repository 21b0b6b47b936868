import { use } from "react";
import type { GaugedFeatureRow, GaugeRow } from "../../db/queries/gauges";
import { inDigits, toleranceWords, withUnit } from "../../lib/format/numbers";
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
import { words } from "../language/language";
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
  const { gauges, figures } = use(words());
  const { effects: said } = gauges;
  return (
    <>
      <Table<GaugedFeatureRow>
        caption={said.caption(features.length)}
        rows={[...features].sort((a, b) => (b.share?.share ?? -1) - (a.share?.share ?? -1))}
        rowKey={({ feature }) => feature.id}
        empty={<Note kind="empty">{said.none}</Note>}
        columns={[
          {
            key: "feature",
            head: said.heads.feature,
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
            head: said.heads.tolerance,
            tight: true,
            cell: ({ feature }) => toleranceWords(feature.plan.tolerance, feature, figures),
          },
          { key: "share", head: said.heads.share, tight: true, cell: Share },
          {
            key: "ndc",
            head: said.heads.classes,
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
            head: said.heads.ratio,
            figures: true,
            cell: (row) => <Num value={uncertaintyRatio(gauge, row)} places={1} alignTo={1} />,
          },
          {
            key: "resolution",
            head: said.heads.step,
            figures: true,
            cell: (row) => {
              const share = stepShare(gauge, row);
              return share === null ? <Num value={null} /> : shareWords(share);
            },
          },
          { key: "basis", head: said.heads.basis, cell: (row) => <Basis {...row} lengths={lengths} /> },
        ]}
      />
      <Fold summary={said.how}>
        <ul>
          {said.explained.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </Fold>
    </>
  );
}

function Share({ share }: GaugedFeatureRow) {
  const { gauges } = use(words());
  if (share === null) return <span className={styles.under}>{gauges.notKnown}</span>;
  const { tone, word } = shareStanding(share.share);
  return (
    <span className={styles.state}>
      <StateShape tone={tone} />
      {shareWords(share.share)} {gauges.shares[word]}
    </span>
  );
}

function Basis({ share, lengths }: GaugedFeatureRow & { lengths: LengthDisplay }) {
  const { effects: said } = use(words()).gauges;
  if (share === null) return said.noBasis;
  const { basis } = share;
  if (basis.kind === "permissible-error") {
    const { unit, length } = inShownUnit("mm", lengths);
    return said.errorAt(withUnit(inDigits(length(basis.length), 4), unit));
  }
  return (
    <>
      <Link href={`/gauges/studies/${basis.id}`}>{said.study(basis.id)}</Link>
      {basis.isOfThisFeature ? said.onThis : said.onAnother}
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
