import Link from "next/link";
import { notFound } from "next/navigation";
import { use } from "react";
import { featuresOfIntake, type IntakeRow, intakeById, refusalsOf } from "../../../db/queries/intakes";
import { storedExcursionIn } from "../../../lib/evaluation/excursion-words";
import { whole } from "../../../lib/format/numbers";
import { pageAsked, paged, TABLE_ROWS } from "../../../lib/format/paged";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { mayCall, requirePage } from "../../access";
import { database } from "../../database";
import { Filled } from "../../fittings/filled";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { PageTurner } from "../../fittings/page-turner";
import { StateWord } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";
import styles from "../intake.module.css";
import { RefusalTable } from "../refusal-table";
import { broughtBy, lookWords, resultWords } from "../result-words";
import { UndoIntake } from "./undo-intake";

const MOST_REFUSALS_SHOWN = 500;

type Params = {
  params: Promise<{ id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

export async function generateMetadata({ params }: Pick<Params, "params">) {
  return { title: (await words()).intake.page.tab((await params).id) };
}

/** One file that came in: what became of it, row by row where it was refused, and the way back. */
export default async function IntakeDetailPage({ params, searchParams }: Params) {
  const person = await requirePage("/intake/[id]");
  const id = Number((await params).id);
  const db = await database();
  const intake = Number.isSafeInteger(id) ? await intakeById(db, id) : null;
  if (!intake) notFound();

  const [refusals, touched, { zone }] = await Promise.all([
    refusalsOf(db, id),
    featuresOfIntake(db, id),
    plant(),
  ]);
  const { board, intake: all, desk, rules, storedTexts } = await words();
  const { page: said } = all;
  const shown = paged(
    [...touched].sort((a, b) => Number(a.alarm === null) - Number(b.alarm === null)),
    { page: pageAsked((await searchParams).page), size: TABLE_ROWS },
  );
  const toLookAt = touched.filter(({ alarm }) => alarm !== null).length;
  const mayUndo = intake.state === "done" && mayCall(person, "POST /api/intake/[id]/undo");
  return (
    <PageFrame
      title={intake.file}
      above={<Link href="/intake">{all.title}</Link>}
      purpose={intake.state === "done" ? resultWords(intake, desk.results) : undoneOrNot(intake, said)}
      facts={<Facts intake={intake} zone={zone} />}
      actions={mayUndo ? <UndoIntake intake={intake} features={touched.length} words={desk} /> : null}
    >
      {intake.message ? (
        <Note kind={intake.state === "failed" ? "refused" : "remark"}>{storedTexts.say(intake.message)}</Note>
      ) : null}
      {intake.notices.length > 0 ? (
        <Note kind="remark" title={said.notices(intake.notices.length)}>
          <ul className={styles.notices}>
            {intake.notices.map(({ line, message }) => (
              <li key={`${line} ${message}`}>
                {fill(desk.atLine, { line, message: storedTexts.say(message) })}
              </li>
            ))}
          </ul>
        </Note>
      ) : null}
      <Section
        title={said.refused}
        id="refused"
        actions={
          refusals.length > 0 ? (
            <a href={`/api/intake/${id}/refusals`} download>
              {said.download}
            </a>
          ) : null
        }
        purpose={refusals.length > 0 ? said.correct : undefined}
      >
        {refusals.length > 0 ? (
          <RefusalTable
            caption={refusalCaption(intake, refusals.length, said)}
            words={desk}
            refusals={refusals
              .slice(0, MOST_REFUSALS_SHOWN)
              .map((refusal) => ({ ...refusal, reason: storedTexts.say(refusal.reason) }))}
          />
        ) : (
          <Note kind="empty">
            {intake.state === "done" || intake.state === "undone" ? said.everyRow : said.notRead}
          </Note>
        )}
      </Section>
      {touched.length > 0 ? (
        <Section title={said.touched} id="features" purpose={lookWords(toLookAt, desk.results)}>
          <Table
            caption={said.features(touched.length)}
            columns={[
              {
                key: "part",
                head: said.heads.part,
                cell: ({ part }) => <span className={styles.oneLine}>{part}</span>,
              },
              {
                key: "name",
                head: said.heads.feature,
                names: true,
                cell: (row) => (
                  <Link href={`/features/${row.id}`} prefetch={false}>
                    {row.name}
                  </Link>
                ),
              },
              { key: "added", head: said.heads.added, figures: true, cell: ({ added }) => whole(added) },
              {
                key: "corrected",
                head: said.heads.corrected,
                figures: true,
                cell: ({ corrected }) => whole(corrected),
              },
              {
                key: "alarm",
                head: said.heads.alarm,
                cell: ({ alarm }) => (alarm === null ? said.noAlarm : storedExcursionIn(alarm, rules)),
              },
            ]}
            rows={shown.rows}
            rowKey={(row) => row.id}
          />
          <PageTurner
            label={board.turning.of(said.touched)}
            shown={shown}
            toPage={(page) => `/intake/${id}?page=${page}#features`}
          />
        </Section>
      ) : null}
    </PageFrame>
  );
}

type PageWords = Words["intake"]["page"];

function undoneOrNot({ state, accepted }: IntakeRow, said: PageWords): string {
  if (state === "undone") return said.undone(accepted);
  if (state === "running") return said.running;
  return state === "cancelled" ? said.cancelled : said.nothing;
}

function Facts({ intake, zone }: { intake: IntakeRow; zone: string }) {
  const { state, startedAt, undoneAt, mappingName, digest } = intake;
  const { intake: all } = use(words());
  const { page: said } = all;
  const isFile = intake.kind === "file" || intake.kind === "folder";
  return (
    <>
      <StateWord state={state} />
      <span>
        <Filled
          text={said.by}
          holes={{ when: <When at={startedAt} zone={zone} />, by: broughtBy(intake, all.table) }}
        />
      </span>
      {undoneAt === null ? null : (
        <span>
          <Filled text={said.undoneAt} holes={{ when: <When at={undoneAt} zone={zone} /> }} />
        </span>
      )}
      {isFile ? <span>{mappingName ? said.savedMapping(mappingName) : said.ownMapping}</span> : null}
      {digest ? (
        <span title={digest}>
          SHA-256 <code>{digest.slice(0, 12)}…</code>
        </span>
      ) : null}
    </>
  );
}

function refusalCaption({ refused }: IntakeRow, kept: number, said: PageWords): string {
  const shown = Math.min(kept, MOST_REFUSALS_SHOWN);
  if (shown === refused) return said.refusedRows(refused);
  return said.firstRefused(shown, refused) + (kept < refused ? said.kept(kept) : "");
}
