import { peopleOfRecord, type RecordLine, recordLines } from "../../db/queries/record";
import type { Words } from "../../lib/words/words";
import { requirePage } from "../access";
import { database } from "../database";
import { Button, ControlRow, LinkButton } from "../fittings/controls";
import { SelectField, TextField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { Table } from "../fittings/table";
import { When } from "../fittings/when";
import { words } from "../language/language";
import { plant } from "../plant";
import styles from "./record.module.css";
import { recordAddress, recordQuery } from "./record-filter";

export async function generateMetadata() {
  return { title: (await words()).record.title };
}

const LINES = 50;

/** Who changed what, when and why; every line is bound to the one before it. */
export default async function RecordPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  await requirePage("/record");
  const { zone } = await plant();
  const { record: said } = await words();
  const { filter: asked, heads } = said;
  const { query, filter } = recordQuery(await searchParams, { zone });
  const db = await database();
  const people = await peopleOfRecord(db);
  const found = await recordLines(db, { filter, before: query.before ?? null, count: LINES + 1 });
  const lines = found.slice(0, LINES);
  const last = lines.at(-1);
  return (
    <PageFrame
      title={said.title}
      purpose={said.purpose}
      actions={
        <a href={recordAddress("/api/record", { ...query, before: undefined })} download>
          {said.download}
        </a>
      }
    >
      <form method="get" action="/record" className={styles.filter}>
        <TextField label={asked.words} hint={asked.wordsHint} name="text" defaultValue={query.text} />
        <SelectField
          label={asked.who}
          name="person"
          defaultValue={String(query.person ?? "")}
          choices={[
            { value: "", label: asked.everybody },
            ...people.map(({ id, name }) => ({ value: String(id), label: name })),
          ]}
        />
        <TextField label={asked.from} type="date" name="from" defaultValue={query.from} />
        <TextField label={asked.to} hint={asked.toHint} type="date" name="to" defaultValue={query.to} />
        <ControlRow>
          <Button type="submit" kind="main">
            {asked.search}
          </Button>
          <LinkButton href="/record">{asked.showAll}</LinkButton>
        </ControlRow>
      </form>
      <Table
        caption={said.caption}
        isCaptionShown={false}
        rows={lines}
        rowKey={({ id }) => id}
        empty={
          <Note kind="empty" title={said.none}>
            {said.noneWhy}
          </Note>
        }
        columns={[
          { key: "id", head: heads.line, figures: true, cell: ({ id }) => id },
          { key: "at", head: heads.when, tight: true, cell: ({ at }) => <When at={at} zone={zone} /> },
          { key: "who", head: heads.who, cell: ({ who }) => <span className={styles.who}>{who}</span> },
          {
            key: "what",
            head: heads.what,
            names: true,
            cell: ({ action, subject }) => <span className={styles.what}>{`${action}: ${subject}`}</span>,
          },
          { key: "change", head: heads.change, cell: (line) => <Change line={line} words={said} /> },
          {
            key: "why",
            head: heads.why,
            cell: ({ reason }) => (reason ? <span className={styles.why}>{reason}</span> : null),
          },
        ]}
      />
      {query.before || (last && found.length > LINES) ? (
        <ControlRow>
          {query.before ? (
            <LinkButton href={recordAddress("/record", { ...query, before: undefined })}>
              {said.newest}
            </LinkButton>
          ) : null}
          {last && found.length > LINES ? (
            <LinkButton href={recordAddress("/record", { ...query, before: last.id })}>
              {said.older}
            </LinkButton>
          ) : null}
        </ControlRow>
      ) : null}
    </PageFrame>
  );
}

function Change({ line: { id, before, after }, words: said }: { line: RecordLine; words: Words["record"] }) {
  if (before === null && after === null) return null;
  return (
    <details>
      <summary>
        {before === null ? said.entered : said.changed}
        <span className="only-read-out">{said.inLine(id)}</span>
      </summary>
      {before === null ? null : <p className={styles.value}>{said.before(before)}</p>}
      {after === null ? null : <p className={styles.value}>{said.after(after)}</p>}
    </details>
  );
}
