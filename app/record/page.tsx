import { peopleOfRecord, type RecordLine, recordLines } from "../../db/queries/record";
import { requirePage } from "../access";
import { database } from "../database";
import { Button, ControlRow, LinkButton } from "../fittings/controls";
import { SelectField, TextField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import { plant } from "../plant";
import styles from "./record.module.css";
import { recordAddress, recordQuery } from "./record-filter";

export const metadata = { title: "Record" };

const LINES = 50;

/** Who changed what, when and why; every line is bound to the one before it. */
export default async function RecordPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  await requirePage("/record");
  const { zone } = await plant();
  const { query, filter } = recordQuery(await searchParams, { zone });
  const db = await database();
  const people = await peopleOfRecord(db);
  const found = await recordLines(db, { filter, before: query.before ?? null, count: LINES + 1 });
  const lines = found.slice(0, LINES);
  const last = lines.at(-1);
  return (
    <PageFrame
      title="Record"
      purpose="Every change that a person, a machine or the program made. Lines are only ever added; each carries a digest of the one before, so that an edit or a gap shows."
      actions={
        <a href={recordAddress("/api/record", { ...query, before: undefined })} download>
          Download as CSV
        </a>
      }
    >
      <form method="get" action="/record" className={styles.filter}>
        <TextField
          label="Words"
          hint="In what was done, to what, or why."
          name="text"
          defaultValue={query.text}
        />
        <SelectField
          label="Who"
          name="person"
          defaultValue={String(query.person ?? "")}
          choices={[
            { value: "", label: "everybody" },
            ...people.map(({ id, name }) => ({ value: String(id), label: name })),
          ]}
        />
        <TextField label="From" type="date" name="from" defaultValue={query.from} />
        <TextField label="To" hint="Both days included." type="date" name="to" defaultValue={query.to} />
        <ControlRow>
          <Button type="submit" kind="main">
            Search
          </Button>
          <LinkButton href="/record">Show all</LinkButton>
        </ControlRow>
      </form>
      <Table
        caption="Lines of the record, the newest first"
        isCaptionShown={false}
        rows={lines}
        rowKey={({ id }) => id}
        empty={
          <Note kind="empty" title="No line fits">
            Take a word away, or choose a longer time.
          </Note>
        }
        columns={[
          { key: "id", head: "Line", figures: true, cell: ({ id }) => id },
          { key: "at", head: "When", tight: true, cell: ({ at }) => <When at={at} zone={zone} /> },
          { key: "who", head: "Who", cell: ({ who }) => <span className={styles.who}>{who}</span> },
          {
            key: "what",
            head: "What",
            names: true,
            cell: ({ action, subject }) => <span className={styles.what}>{`${action}: ${subject}`}</span>,
          },
          { key: "change", head: "Before and after", cell: (line) => <Change line={line} /> },
          {
            key: "why",
            head: "Why",
            cell: ({ reason }) => (reason ? <span className={styles.why}>{reason}</span> : null),
          },
        ]}
      />
      {query.before || (last && found.length > LINES) ? (
        <ControlRow>
          {query.before ? (
            <LinkButton href={recordAddress("/record", { ...query, before: undefined })}>
              Newest lines
            </LinkButton>
          ) : null}
          {last && found.length > LINES ? (
            <LinkButton href={recordAddress("/record", { ...query, before: last.id })}>
              Older lines
            </LinkButton>
          ) : null}
        </ControlRow>
      ) : null}
    </PageFrame>
  );
}

function Change({ line: { id, before, after } }: { line: RecordLine }) {
  if (before === null && after === null) return null;
  return (
    <details>
      <summary>
        {before === null ? "entered" : "changed"}
        <span className="only-read-out"> in line {id}</span>
      </summary>
      {before === null ? null : <p className={styles.value}>Before: {before}</p>}
      {after === null ? null : <p className={styles.value}>After: {after}</p>}
    </details>
  );
}
