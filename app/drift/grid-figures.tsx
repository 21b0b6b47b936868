import { Table } from "../fittings/table";
import type { GridView } from "./grid-view";

/** The grid's figures as a plain table, lots downwards with the newest first. */
export function GridFigures({ view }: { view: GridView }) {
  const rows = view.groups.flatMap((group) => group.rows);
  const lots = view.lots.map((lot, place) => ({ ...lot, place })).reverse();
  return (
    <Table
      caption="Deviation from the rest of the same lot, in sigma over the features of the source; alone: from its usual level"
      rows={lots}
      rowKey={({ code }) => code}
      columns={[
        { key: "lot", head: "Lot", tight: true, cell: ({ code }) => code },
        { key: "day", head: "Begun", tight: true, cell: ({ day }) => day },
        ...rows.map((row) => ({
          key: row.source,
          head: row.code,
          figures: true,
          cell: ({ place }: { place: number }) => {
            const cell = row.cells[place];
            if (!cell) return "did not run";
            return cell.strength === null ? `${cell.figure} alone` : cell.figure;
          },
        })),
      ]}
    />
  );
}
