import { use } from "react";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { fixed, withUnit } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import { words } from "../language/language";
import { SourceName } from "./quiet-list";
import type { ScanNames } from "./scan-names";

export type EventShift = StoredScan["atEvents"][number];

/** What changed at logged events: taken as intended, and for a person to confirm. */
export function EventShifts({
  shifts,
  names,
  zone,
}: {
  shifts: readonly EventShift[];
  names: ScanNames;
  zone: string;
}) {
  const { driftPage, trade } = use(words());
  const { atEvents: said } = driftPage;
  return (
    <Table
      caption={said.caption(shifts.length)}
      rows={shifts}
      rowKey={({ source, at }) => `${source.kind} ${source.id} ${at}`}
      columns={[
        {
          key: "source",
          head: said.heads.source,
          tight: true,
          cell: ({ source }) => <SourceName source={source} />,
        },
        { key: "event", head: said.heads.event, tight: true, cell: ({ event }) => trade.events[event] },
        { key: "at", head: said.heads.at, tight: true, cell: ({ at }) => <When at={at} zone={zone} /> },
        { key: "shift", head: said.heads.shift, figures: true, cell: (one) => shiftWords(one) },
        {
          key: "features",
          head: said.heads.features,
          cell: ({ features, inScope, source, at }) => (
            <>
              {said.mostOfAll(features.length, inScope)}{" "}
              {features.slice(0, 3).map(({ part, feature }, i) => {
                const row = names.feature(part, feature);
                return (
                  <span key={`${part} ${feature}`}>
                    {i > 0 ? "; " : ""}
                    {row === null ? (
                      feature
                    ) : (
                      <Link href={`/features/${row.id}?colour=${source.kind}&from=${at}`}>{feature}</Link>
                    )}
                  </span>
                );
              })}
            </>
          ),
        },
      ]}
    />
  );
}

/** "+0.0060 mm": one decimal finer than most gauges read. */
export function shiftWords({ shift, unit }: Pick<EventShift, "shift" | "unit">): string {
  return withUnit(fixed(shift, unit === "in" ? 6 : 4, { signed: true }), unit);
}
