import Link from "next/link";
import type { IntakeRow } from "../../db/queries/intakes";
import { counted, whole } from "../../lib/format/numbers";
import { StateWord } from "../fittings/state-word";
import { type Column, Table } from "../fittings/table";
import { When } from "../fittings/when";
import styles from "./intake.module.css";
import { broughtBy } from "./result-words";

const COUNTS = [
  ["accepted", "Stored"],
  ["refused", "Refused"],
  ["duplicates", "There already"],
  ["corrections", "Corrected"],
  ["late", "Late"],
  ["signals", "Signals"],
  ["alarms", "Alarms"],
] as const;

/** Every file that was brought in, or that somebody tried to, and how it ended. */
export function HistoryTable({
  intakes,
  zone,
  isCut,
}: {
  intakes: readonly IntakeRow[];
  zone: string;
  isCut: boolean;
}) {
  const columns: Column<IntakeRow>[] = [
    {
      key: "file",
      head: "File",
      names: true,
      width: "22rem",
      cell: ({ id, file, message }) => (
        <span className={styles.file}>
          <Link href={`/intake/${id}`} prefetch={false}>
            {file}
          </Link>
          {message ? <span className={styles.message}>{message}</span> : null}
        </span>
      ),
    },
    {
      key: "when",
      head: "When",
      cell: ({ startedAt }) => (
        <span className={styles.oneLine}>
          <When at={startedAt} zone={zone} as="short" />
        </span>
      ),
    },
    {
      key: "by",
      head: "Who",
      cell: (intake) => <span className={styles.oneLine}>{broughtBy(intake)}</span>,
    },
    { key: "state", head: "State", cell: ({ state }) => <StateWord state={state} /> },
    ...COUNTS.map(
      ([key, head]): Column<IntakeRow> => ({
        key,
        head,
        figures: true,
        cell: (intake) => (intake[key] === 0 ? <span className={styles.zero}>0</span> : whole(intake[key])),
      }),
    ),
  ];
  return (
    <Table
      caption={isCut ? `The latest ${counted(intakes.length, "file")}` : counted(intakes.length, "file")}
      columns={columns}
      rows={intakes}
      rowKey={({ id }) => id}
    />
  );
}
