import { use } from "react";
import type { SourceEventRow } from "../../db/queries/sources";
import { Note } from "../fittings/note";
import { SourceChip } from "../fittings/source-chip";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import { words } from "../language/language";

/** The latest event of each source; what is compared begins with it. */
export function EventTable({ events, zone }: { events: readonly SourceEventRow[]; zone: string }) {
  const { driftPage, trade } = use(words());
  const { latestEvents: said } = driftPage;
  const { heads } = said;
  const latest = [...new Map([...events].reverse().map((one) => [one.sourceId, one])).values()].sort(
    (a, b) => b.at - a.at || b.id - a.id,
  );
  const countOf = (sourceId: number) => events.filter((one) => one.sourceId === sourceId).length;
  return (
    <Table
      caption={said.caption(latest.length)}
      rows={latest}
      rowKey={({ sourceId }) => sourceId}
      empty={
        <Note kind="empty" title={said.none}>
          {said.log}
        </Note>
      }
      columns={[
        {
          key: "source",
          head: heads.source,
          tight: true,
          cell: ({ kind, code }) => <SourceChip kind={kind} code={code} />,
        },
        { key: "event", head: heads.event, cell: ({ event }) => trade.events[event] },
        { key: "at", head: heads.at, tight: true, cell: ({ at }) => <When at={at} zone={zone} /> },
        { key: "note", head: heads.note, cell: ({ note }) => note || "–" },
        { key: "by", head: heads.by, cell: ({ by }) => by ?? "–" },
        {
          key: "count",
          head: heads.count,
          figures: true,
          cell: ({ sourceId }) => countOf(sourceId),
        },
      ]}
    />
  );
}
