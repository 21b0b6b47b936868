import type { Refusal } from "../../lib/intake/batch";
import { Table } from "../fittings/table";
import styles from "./intake.module.css";
import { TIDY_COLUMNS } from "./tidy-columns";

/** Rows that were or would be refused, each with its reason and as it stands in the file. */
export function RefusalTable({ caption, refusals }: { caption: string; refusals: readonly Refusal[] }) {
  const rows = refusals.map((refusal, at) => ({ ...refusal, at }));
  return (
    <Table
      caption={caption}
      columns={[
        { key: "line", head: "Line", figures: true, cell: ({ line }) => line },
        { key: "field", head: "Field", cell: ({ field }) => fieldWord(field) },
        { key: "reason", head: "Reason", width: "26rem", cell: ({ reason }) => reason },
        {
          key: "raw",
          head: "Row as it stands",
          cell: ({ raw }) => <code className={styles.raw}>{raw}</code>,
        },
      ]}
      rows={rows}
      rowKey={({ at }) => at}
    />
  );
}

function fieldWord(field: string): string {
  if (field === "row") return "the row";
  return TIDY_COLUMNS.find(({ column }) => column === field)?.label ?? field;
}
