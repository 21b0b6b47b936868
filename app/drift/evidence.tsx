import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import type { FeatureShift } from "../../lib/drift/magnitude";
import { percent, placesOf } from "../../lib/format/numbers";
import { SOURCE_KINDS } from "../../lib/measurements/series";
import type { Words } from "../../lib/words/words";
import { Link } from "../fittings/link";
import { Num } from "../fittings/num";
import { StateWord } from "../fittings/state-word";
import { Table } from "../fittings/table";
import { words } from "../language/language";
import styles from "./drift.module.css";
import type { ScanNames } from "./scan-names";

/** Features that moved with the source, then those in its reach that did not; each leads to its chart. */
export function Evidence({ flag, names }: { flag: FlagRow; names: ScanNames }) {
  const { evidence: said } = use(words()).driftPage;
  const { features, unmoved, kind, onset } = flag.latest;
  const rows = [
    ...features.map((shift) => ({ shift, isMoved: true })),
    ...unmoved.map((shift) => ({ shift, isMoved: false })),
  ];
  const parts = new Set(rows.map(({ shift }) => shift.part));
  const placesFor = ({ part, feature }: FeatureShift) =>
    placesOf(names.feature(part, feature)?.resolution ?? null) + 1;
  const places = Math.max(0, ...rows.map(({ shift }) => placesFor(shift)));
  return (
    <Table
      caption={
        kind === "spread"
          ? said.scatterCaption(features.length, flag.source.id, onset.lot)
          : said.movedCaption(features.length, flag.source.id, onset.lot, unmoved.length)
      }
      rows={rows}
      rowKey={({ shift }) => `${shift.part} ${shift.feature}`}
      rowClass={({ isMoved }) => (isMoved ? undefined : styles.still)}
      columns={[
        {
          key: "feature",
          head: said.heads.feature,
          width: "38%",
          cell: ({ shift }) => (
            <FeatureLink shift={shift} flag={flag} names={names} withPart={parts.size > 1} />
          ),
        },
        {
          key: "state",
          head: said.heads.state,
          tight: true,
          cell: ({ shift, isMoved }) =>
            isMoved ? (
              <StateWord state="act">
                {kind === "spread" ? said.scatters : shift.shift > 0 ? said.up : said.down}
              </StateWord>
            ) : (
              <StateWord state="quiet">{said.still}</StateWord>
            ),
        },
        ...(kind === "spread" ? [] : shiftColumns(places, placesFor, said)),
      ]}
    />
  );
}

type EvidenceRow = { shift: FeatureShift; isMoved: boolean };

function shiftColumns(
  places: number,
  placesFor: (shift: FeatureShift) => number,
  said: Words["driftPage"]["evidence"],
) {
  return [
    {
      key: "difference",
      head: said.heads.difference,
      figures: true,
      cell: ({ shift }: EvidenceRow) => (
        <span className={styles.change}>
          <Num value={shift.shift} places={placesFor(shift)} alignTo={places} signed />
          <span>±</span>
          <Num value={shift.standardError} places={placesFor(shift)} alignTo={places} unit={shift.unit} />
        </span>
      ),
    },
    {
      key: "share",
      head: said.heads.share,
      figures: true,
      cell: ({ shift }: EvidenceRow) =>
        shift.shareOfTolerance === null ? (
          <Num value={null} absent={said.noWidth} />
        ) : (
          percent(shift.shareOfTolerance)
        ),
    },
    {
      key: "sigma",
      head: said.heads.sigma,
      figures: true,
      cell: ({ shift }: EvidenceRow) => <Num value={shift.shiftInSigma} places={1} signed />,
    },
    {
      key: "chance",
      head: said.heads.chance,
      figures: true,
      cell: ({ shift }: EvidenceRow) => percent(shift.moved),
    },
  ];
}

/** To the feature's chart, coloured by the source, with the change marked. */
export function FeatureLink({
  shift: { part, feature: name },
  flag,
  names,
  withPart,
}: {
  shift: { part: string; feature: string };
  flag: FlagRow;
  names: ScanNames;
  withPart: boolean;
}) {
  const feature = names.feature(part, name);
  const label = withPart ? `${name}, ${part}` : name;
  if (feature === null) return <>{label}</>;
  return <Link href={chartHref(feature.id, flag)}>{label}</Link>;
}

export function chartHref(featureId: number, { source, latest }: Pick<FlagRow, "source" | "latest">): string {
  const kinds: readonly string[] = ["lot", ...SOURCE_KINDS];
  const query = new URLSearchParams({
    ...(kinds.includes(source.kind) && { colour: source.kind }),
    from: String(latest.onset.at),
  });
  return `/features/${featureId}?${query}`;
}
