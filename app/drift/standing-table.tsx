import { counted, percent, placesOf } from "../../lib/format/numbers";
import type { SourceKind } from "../../lib/measurements/series";
import type { StandingOffset } from "../../lib/sources/standing-offsets";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Num } from "../fittings/num";
import { SourceChip } from "../fittings/source-chip";
import { Table } from "../fittings/table";
import type { DriftNames } from "./drift-names";

export type StandingRow = StandingOffset & { kind: SourceKind };

/** Differences that have always been there. */
export function StandingTable({ rows, names }: { rows: readonly StandingRow[]; names: DriftNames }) {
  const own = ({ feature }: StandingRow) => placesOf(names.feature(feature).resolution) + 1;
  const places = Math.max(0, ...rows.map(own));
  return (
    <Table
      caption={`${counted(rows.length, "standing difference")} beyond 4 standard errors`}
      rows={rows}
      rowKey={({ source, feature }) => `${source} ${feature}`}
      empty={
        <Note kind="empty">
          No source stands apart from the others in its lots by more than 4 standard errors.
        </Note>
      }
      columns={[
        {
          key: "source",
          head: "Source",
          tight: true,
          cell: ({ kind, source }) => <SourceChip kind={kind} code={names.source(source)} />,
        },
        {
          key: "feature",
          head: "Feature",
          cell: ({ feature, kind }) => (
            <Link href={`/features/${feature}?colour=${kind}`}>{names.feature(feature).name}</Link>
          ),
        },
        {
          key: "deviation",
          head: "From the others",
          figures: true,
          cell: (row) => (
            <Num
              value={row.deviation}
              places={own(row)}
              alignTo={places}
              unit={names.feature(row.feature).unit}
              signed
            />
          ),
        },
        {
          key: "error",
          head: "± standard error",
          figures: true,
          cell: (row) => (
            <Num
              value={row.standardError}
              places={own(row)}
              alignTo={places}
              unit={names.feature(row.feature).unit}
            />
          ),
        },
        {
          key: "share",
          head: "Of tolerance",
          figures: true,
          cell: (row) => {
            const { width } = names.feature(row.feature);
            if (width === null) return <Num value={null} absent="no tolerance width" />;
            return percent(Math.abs(row.deviation) / width);
          },
        },
        {
          key: "sigma",
          head: "In sigma",
          figures: true,
          cell: (row) => <Num value={row.deviationInSigma} places={1} signed />,
        },
        { key: "lots", head: "Lots", figures: true, cell: (row) => <Num value={row.lots} places={0} /> },
      ]}
    />
  );
}
