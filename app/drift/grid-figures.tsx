import { Table } from "../fittings/table";
import type { GridView } from "./grid-view";

/** The grid's figures as a plain table, lots downwards with the newest first; sources that are compared only. */
export function GridFigures({ view }: { view: GridView }) {
  const compared = view.groups.filter(({ isCompared }) => isCompared).flatMap(({ rows }) => rows);
  const lots = view.lots.map((lot, place) => ({ ...lot, place })).reverse();
  return (
    <Table
      caption="Deviation from the others in the same lot, in sigma over the features of the part"
      rows={lots}
      rowKey={({ id }) => id}
      columns={[
        { key: "lot", head: "Lot", tight: true, cell: ({ code }) => code },
        { key: "day", head: "Begun", tight: true, cell: ({ day }) => day },
        ...compared.map((row) => ({
          key: String(row.source),
          head: row.code,
          figures: true,
          cell: ({ place }: { place: number }) => {
            const cell = row.cells[place];
            if (!cell) return "did not run";
            return cell.strength === null ? "ran alone" : cell.figure;
          },
        })),
      ]}
    />
  );
}
