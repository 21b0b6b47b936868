import { use } from "react";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { fixed, percent, placesOf } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Num } from "../fittings/num";
import { Table } from "../fittings/table";
import { words } from "../language/language";
import { SourceName } from "./quiet-list";
import type { ScanNames } from "./scan-names";

/** Below this many standard errors an offset may be chance among so many. Common practice, no source. */
const ERRORS = 4;

/** Differences that have always been there. */
export function StandingTable({ standing, names }: { standing: StoredScan["standing"]; names: ScanNames }) {
  const { driftPage } = use(words());
  const { standing: said, evidence } = driftPage;
  const { heads } = said;
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
      caption={said.caption(rows.length, ERRORS)}
      rows={rows}
      rowKey={({ part, source, feature }) => `${part} ${source.kind} ${source.id} ${feature}`}
      empty={<Note kind="empty">{said.none(ERRORS)}</Note>}
      columns={[
        {
          key: "source",
          head: heads.source,
          tight: true,
          cell: ({ source }) => <SourceName source={source} />,
        },
        {
          key: "feature",
          head: heads.feature,
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
          head: heads.offset,
          figures: true,
          cell: (row) => <Num value={row.offset} places={own(row)} alignTo={places} unit={row.unit} signed />,
        },
        {
          key: "error",
          head: heads.error,
          figures: true,
          cell: (row) => <Num value={row.standardError} places={own(row)} alignTo={places} unit={row.unit} />,
        },
        {
          key: "share",
          head: heads.share,
          figures: true,
          cell: ({ shareOfTolerance }) =>
            shareOfTolerance === null ? (
              <Num value={null} absent={evidence.noWidth} />
            ) : (
              percent(shareOfTolerance)
            ),
        },
        {
          key: "sigma",
          head: heads.sigma,
          figures: true,
          cell: ({ offsetInSigma }) => <Num value={offsetInSigma} places={1} signed />,
        },
        {
          key: "scatter",
          head: heads.scatter,
          figures: true,
          cell: ({ scatterRatio }) =>
            scatterRatio === null ? <Num value={null} /> : said.times(fixed(scatterRatio, 2)),
        },
        {
          key: "pieces",
          head: heads.pieces,
          figures: true,
          cell: ({ pieces }) => <Num value={pieces} places={0} />,
        },
      ]}
    />
  );
}
