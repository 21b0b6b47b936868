import Link from "next/link";
import { notFound } from "next/navigation";
import { featuresOfIntake, type IntakeRow, intakeById, refusalsOf } from "../../../db/queries/intakes";
import { counted, whole } from "../../../lib/format/numbers";
import { mayCall, requirePage } from "../../access";
import { database } from "../../database";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateWord } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import styles from "../intake.module.css";
import { RefusalTable } from "../refusal-table";
import { broughtBy, lookWords, resultWords } from "../result-words";
import { UndoIntake } from "./undo-intake";

const MOST_REFUSALS_SHOWN = 500;

type Params = { params: Promise<{ id: string }> };

export async function generateMetadata({ params }: Params) {
  return { title: `Intake ${(await params).id}` };
}

/** One file that came in: what became of it, row by row where it was refused, and the way back. */
export default async function IntakeDetailPage({ params }: Params) {
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
  const toLookAt = touched.filter(({ alarm }) => alarm !== null).length;
  const mayUndo = intake.state === "done" && mayCall(person, "POST /api/intake/[id]/undo");
  return (
    <PageFrame
      title={intake.file}
      above={<Link href="/intake">Intake</Link>}
      purpose={intake.state === "done" ? resultWords(intake) : undoneOrNot(intake)}
      facts={<Facts intake={intake} zone={zone} />}
      actions={mayUndo ? <UndoIntake intake={intake} features={touched.length} /> : null}
    >
      {intake.message ? (
        <Note kind={intake.state === "failed" ? "refused" : "remark"}>{intake.message}</Note>
      ) : null}
      {intake.notices.length > 0 ? (
        <Note kind="remark" title={`${counted(intake.notices.length, "notice")} on rows that were taken`}>
          <ul className={styles.notices}>
            {intake.notices.map(({ line, message }) => (
              <li key={`${line} ${message}`}>
                Line {line}: {message}
              </li>
            ))}
          </ul>
        </Note>
      ) : null}
      <Section
        title="Refused rows"
        id="refused"
        actions={
          refusals.length > 0 ? (
            <a href={`/api/intake/${id}/refusals`} download>
              Download all as CSV
            </a>
          ) : null
        }
        purpose={
          refusals.length > 0
            ? "Correct them at their source and bring the file in again: what is there already is not doubled. In the download, cells that a spreadsheet would run as formulas begin with an apostrophe."
            : undefined
        }
      >
        {refusals.length > 0 ? (
          <RefusalTable
            caption={refusalCaption(intake, refusals.length)}
            refusals={refusals.slice(0, MOST_REFUSALS_SHOWN)}
          />
        ) : (
          <Note kind="empty">
            {intake.state === "done" || intake.state === "undone"
              ? "Every row could be taken."
              : "The file was not read to its end, so no row was judged."}
          </Note>
        )}
      </Section>
      {touched.length > 0 ? (
        <Section title="Features it touched" id="features" purpose={lookWords(toLookAt)}>
          <Table
            caption={counted(touched.length, "feature")}
            columns={[
              {
                key: "part",
                head: "Part",
                cell: ({ part }) => <span className={styles.oneLine}>{part}</span>,
              },
              {
                key: "name",
                head: "Feature",
                names: true,
                cell: (row) => (
                  <Link href={`/features/${row.id}`} prefetch={false}>
                    {row.name}
                  </Link>
                ),
              },
              { key: "added", head: "Stored", figures: true, cell: ({ added }) => whole(added) },
              {
                key: "corrected",
                head: "Corrected",
                figures: true,
                cell: ({ corrected }) => whole(corrected),
              },
              { key: "alarm", head: "Alarm now", cell: ({ alarm }) => alarm ?? "none" },
            ]}
            rows={[...touched].sort((a, b) => Number(a.alarm === null) - Number(b.alarm === null))}
            rowKey={(row) => row.id}
          />
        </Section>
      ) : null}
    </PageFrame>
  );
}

function undoneOrNot({ state, accepted }: IntakeRow): string {
  if (state === "undone")
    return `Undone. Its ${counted(accepted, "measurement")} were taken back; what people wrote stays.`;
  if (state === "running") return "It is being read now.";
  return state === "cancelled" ? "Cancelled. Nothing of it was stored." : "Nothing of it was stored.";
}

function Facts({ intake, zone }: { intake: IntakeRow; zone: string }) {
  const { state, startedAt, undoneAt, mappingName, digest } = intake;
  const isFile = intake.kind === "file" || intake.kind === "folder";
  return (
    <>
      <StateWord state={state} />
      <span>
        <When at={startedAt} zone={zone} /> by {broughtBy(intake)}
      </span>
      {undoneAt === null ? null : (
        <span>
          undone <When at={undoneAt} zone={zone} />
        </span>
      )}
      {isFile ? (
        <span>
          {mappingName ? `read as saved mapping “${mappingName}”` : "read with a mapping that was not saved"}
        </span>
      ) : null}
      {digest ? (
        <span title={digest}>
          SHA-256 <code>{digest.slice(0, 12)}…</code>
        </span>
      ) : null}
    </>
  );
}

function refusalCaption({ refused }: IntakeRow, kept: number): string {
  const shown = Math.min(kept, MOST_REFUSALS_SHOWN);
  if (shown === refused) return counted(refused, "refused row");
  const keptWords = kept < refused ? `; the first ${whole(kept)} were kept for the download` : "";
  return `The first ${whole(shown)} of ${counted(refused, "refused row")}${keptWords}`;
}
