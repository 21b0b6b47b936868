import { use } from "react";
import { Table } from "../fittings/table";
import { words } from "../language/language";
import type { GridView } from "./grid-view";

/** The grid's figures as a plain table, lots downwards with the newest first. */
export function GridFigures({ view }: { view: GridView }) {
  const { grid: said } = use(words()).driftPage;
  const rows = view.groups.flatMap((group) => group.rows);
  const lots = view.lots.map((lot, place) => ({ ...lot, place })).reverse();
  return (
    <Table
      caption={said.caption}
      rows={lots}
      rowKey={({ code }) => code}
      columns={[
        { key: "lot", head: said.lot, tight: true, cell: ({ code }) => code },
        { key: "day", head: said.begun, tight: true, cell: ({ day }) => day },
        ...rows.map((row) => ({
          key: row.source,
          head: row.code,
          figures: true,
          cell: ({ place }: { place: number }) => {
            const cell = row.cells[place];
            if (!cell) return said.didNotRun;
            return cell.strength === null ? said.aloneFigure(cell.figure) : cell.figure;
          },
        })),
      ]}
    />
  );
}
