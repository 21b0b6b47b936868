import Link from "next/link";
import { use } from "react";
import type { IntakeRow } from "../../db/queries/intakes";
import { whole } from "../../lib/format/numbers";
import { StateWord } from "../fittings/state-word";
import { type Column, Table } from "../fittings/table";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./intake.module.css";
import { broughtBy } from "./result-words";

const COUNTS = ["accepted", "refused", "duplicates", "corrections", "late", "signals", "alarms"] as const;

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
  const { intake, storedTexts } = use(words());
  const { table: said } = intake;
  const { heads } = said;
  const columns: Column<IntakeRow>[] = [
    {
      key: "file",
      head: heads.file,
      names: true,
      width: "22rem",
      cell: ({ id, file, message }) => (
        <span className={styles.file}>
          <Link href={`/intake/${id}`} prefetch={false}>
            {file}
          </Link>
          {message ? <span className={styles.message}>{storedTexts.say(message)}</span> : null}
        </span>
      ),
    },
    {
      key: "when",
      head: heads.when,
      cell: ({ startedAt }) => (
        <span className={styles.oneLine}>
          <When at={startedAt} zone={zone} as="short" />
        </span>
      ),
    },
    {
      key: "by",
      head: heads.by,
      cell: (intake) => <span className={styles.oneLine}>{broughtBy(intake, said)}</span>,
    },
    { key: "state", head: heads.state, cell: ({ state }) => <StateWord state={state} /> },
    ...COUNTS.map(
      (key): Column<IntakeRow> => ({
        key,
        head: heads[key],
        figures: true,
        cell: (intake) => (intake[key] === 0 ? <span className={styles.zero}>0</span> : whole(intake[key])),
      }),
    ),
  ];
  return (
    <Table
      caption={isCut ? said.latest(intakes.length) : said.caption(intakes.length)}
      columns={columns}
      rows={intakes}
      rowKey={({ id }) => id}
    />
  );
}
