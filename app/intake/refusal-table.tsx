import type { Refusal } from "../../lib/intake/batch";
import type { Words } from "../../lib/words/words";
import { Table } from "../fittings/table";
import styles from "./intake.module.css";
import { columnLabel } from "./tidy-columns";

/** Rows that were or would be refused, each with its reason and as it stands in the file. */
export function RefusalTable({
  caption,
  refusals,
  words: { refusals: said, tidy },
}: {
  caption: string;
  refusals: readonly Refusal[];
  words: Pick<Words["desk"], "refusals" | "tidy">;
}) {
  const rows = refusals.map((refusal, at) => ({ ...refusal, at }));
  return (
    <Table
      caption={caption}
      columns={[
        { key: "line", head: said.line, figures: true, cell: ({ line }) => line },
        {
          key: "field",
          head: said.field,
          cell: ({ field }) => (field === "row" ? said.row : columnLabel(field, tidy)),
        },
        { key: "reason", head: said.reason, width: "26rem", cell: ({ reason }) => reason },
        {
          key: "raw",
          head: said.raw,
          cell: ({ raw }) => <code className={styles.raw}>{raw}</code>,
        },
      ]}
      rows={rows}
      rowKey={({ at }) => at}
    />
  );
}
