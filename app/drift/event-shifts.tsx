import type { StoredScan } from "../../lib/drift/stored-scan";
import { counted, fixed, withUnit } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
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
  return (
    <Table
      caption={`${counted(shifts.length, "event")} at which two or more features changed by over 4 standard errors`}
      rows={shifts}
      rowKey={({ source, at }) => `${source.kind} ${source.id} ${at}`}
      columns={[
        { key: "source", head: "Source", tight: true, cell: ({ source }) => <SourceName source={source} /> },
        { key: "event", head: "Event", tight: true, cell: ({ event }) => event },
        { key: "at", head: "When", tight: true, cell: ({ at }) => <When at={at} zone={zone} /> },
        { key: "shift", head: "Since then", figures: true, cell: (one) => shiftWords(one) },
        {
          key: "features",
          head: "Features",
          cell: ({ features, inScope, source, at }) => (
            <>
              {features.length} of {inScope}, most of all{" "}
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
  return withUnit(fixed(shift, unit === "in" ? 5 : 4, { signed: true }), unit);
}
