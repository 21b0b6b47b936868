import type { StoredScan } from "../../lib/drift/stored-scan";
import { counted, fixed, percent, placesOf } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Num } from "../fittings/num";
import { Table } from "../fittings/table";
import { SourceName } from "./quiet-list";
import type { ScanNames } from "./scan-names";

/** Below this many standard errors an offset may be chance among so many. Common practice, no source. */
const ERRORS = 4;

/** Differences that have always been there. */
export function StandingTable({ standing, names }: { standing: StoredScan["standing"]; names: ScanNames }) {
  const rows = standing
    .flatMap(({ part, source, pieces, scatterRatio, features }) =>
      features
        .filter(({ offset, standardError }) => Math.abs(offset) > ERRORS * standardError)
        .map((one) => ({ ...one, part, source, pieces, scatterRatio })),
    )
    .sort((a, b) => Math.abs(b.offset / b.standardError) - Math.abs(a.offset / a.standardError));
  type Row = (typeof rows)[number];
  const own = ({ part, feature }: Row) => placesOf(names.feature(part, feature)?.resolution ?? null) + 1;
  const places = Math.max(0, ...rows.map(own));
  return (
    <Table
      caption={`${counted(rows.length, "standing difference")} beyond ${ERRORS} standard errors`}
      rows={rows}
      rowKey={({ part, source, feature }) => `${part} ${source.kind} ${source.id} ${feature}`}
      empty={
        <Note kind="empty">
          No source stands apart from the others of its kind by more than {ERRORS} standard errors.
        </Note>
      }
      columns={[
        { key: "source", head: "Source", tight: true, cell: ({ source }) => <SourceName source={source} /> },
        {
          key: "feature",
          head: "Feature",
          cell: ({ part, feature, source }) => {
            const row = names.feature(part, feature);
            const label = `${feature}, ${part}`;
            return row === null ? (
              label
            ) : (
              <Link href={`/features/${row.id}?colour=${source.kind}`}>{label}</Link>
            );
          },
        },
        {
          key: "offset",
          head: "From the others",
          figures: true,
          cell: (row) => <Num value={row.offset} places={own(row)} alignTo={places} unit={row.unit} signed />,
        },
        {
          key: "error",
          head: "± standard error",
          figures: true,
          cell: (row) => <Num value={row.standardError} places={own(row)} alignTo={places} unit={row.unit} />,
        },
        {
          key: "share",
          head: "Of tolerance",
          figures: true,
          cell: ({ shareOfTolerance }) =>
            shareOfTolerance === null ? (
              <Num value={null} absent="no tolerance width" />
            ) : (
              percent(shareOfTolerance)
            ),
        },
        {
          key: "sigma",
          head: "In sigma",
          figures: true,
          cell: ({ offsetInSigma }) => <Num value={offsetInSigma} places={1} signed />,
        },
        {
          key: "scatter",
          head: "Scatter against the others",
          figures: true,
          cell: ({ scatterRatio }) =>
            scatterRatio === null ? (
              <Num value={null} absent="not known" />
            ) : (
              `${fixed(scatterRatio, 2)} times`
            ),
        },
        {
          key: "pieces",
          head: "Pieces",
          figures: true,
          cell: ({ pieces }) => <Num value={pieces} places={0} />,
        },
      ]}
    />
  );
}
