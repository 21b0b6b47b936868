import type { SourceEventRow } from "../../db/queries/sources";
import { counted } from "../../lib/format/numbers";
import { Note } from "../fittings/note";
import { SourceChip } from "../fittings/source-chip";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";

/** The latest event of each source; what is compared begins with it. */
export function EventTable({ events, zone }: { events: readonly SourceEventRow[]; zone: string }) {
  const latest = [...new Map([...events].reverse().map((one) => [one.sourceId, one])).values()].sort(
    (a, b) => b.at - a.at || b.id - a.id,
  );
  const countOf = (sourceId: number) => events.filter((one) => one.sourceId === sourceId).length;
  return (
    <Table
      caption={`Latest event of ${counted(latest.length, "source")}`}
      rows={latest}
      rowKey={({ sourceId }) => sourceId}
      empty={
        <Note kind="empty" title="No events yet">
          Log what is changed, repaired, adjusted, calibrated or moved: a source is compared afresh from then
          on.
        </Note>
      }
      columns={[
        {
          key: "source",
          head: "Source",
          tight: true,
          cell: ({ kind, code }) => <SourceChip kind={kind} code={code} />,
        },
        { key: "event", head: "Event", cell: ({ event }) => event },
        { key: "at", head: "When", tight: true, cell: ({ at }) => <When at={at} zone={zone} /> },
        { key: "note", head: "Note", cell: ({ note }) => note || "–" },
        { key: "by", head: "Logged by", cell: ({ by }) => by ?? "–" },
        {
          key: "count",
          head: "Events",
          figures: true,
          cell: ({ sourceId }) => countOf(sourceId),
        },
      ]}
    />
  );
}
