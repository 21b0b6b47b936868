import { notFound } from "next/navigation";
import { sharesOf, statementById, statementReadings } from "../../../../db/queries/statements";
import { partName } from "../../../../lib/format/names";
import { exactMomentIn } from "../../../../lib/format/times";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { LinkButton } from "../../../fittings/controls";
import { Link } from "../../../fittings/link";
import { Note } from "../../../fittings/note";
import { PageFrame, Section } from "../../../fittings/page-frame";
import { plant } from "../../../plant";
import { writePageAsSigned } from "../../../shown/as-signed";
import { SHEET_FORMS } from "../sheet-file";
import { StatedFeatureSheet, StatementOverview } from "../statement-sheet";
import styles from "../statements.module.css";
import { Provenance } from "./provenance";
import { RecomputeForm } from "./recompute-form";
import { Shares } from "./shares";

type Address = {
  params: Promise<{ id: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

export async function generateMetadata({ params }: Pick<Address, "params">) {
  return { title: `Capability statement ${(await params).id}` };
}

/** A statement as it was signed: overview, or with `?sheet=` the sheet of one feature. */
export default async function StatementPage({ params, searchParams }: Address) {
  const person = await requirePage("/capability/statements/[id]");
  await writePageAsSigned();
  const id = Number((await params).id);
  const db = await database();
  const statement = Number.isSafeInteger(id) ? await statementById(db, id) : null;
  if (!statement) notFound();
  const { content, supersededBy, supersedes } = statement;
  const wanted = Number((await searchParams).sheet);
  const position = wanted - 1;
  const feature = Number.isSafeInteger(position) ? content.features[position] : undefined;
  const here = `/capability/statements/${id}`;
  const maySign = mayRun(person, "signStatement");
  const { zone } = await plant();
  return (
    <PageFrame
      title={feature ? feature.name : content.title}
      above={
        <>
          <Link href="/capability/statements">Statements</Link>
          {feature ? (
            <>
              {" "}
              · <Link href={here}>Statement {id}</Link>
            </>
          ) : null}
        </>
      }
      facts={
        <>
          <span>
            Statement {id} of {partName(content.part)} {content.part.name}
          </span>
          <span>
            Signed by {content.signedBy}, {exactMomentIn(content.frozenAt, zone)}
          </span>
          {supersedes === null ? null : (
            <span>
              Supersedes <Link href={`/capability/statements/${supersedes}`}>statement {supersedes}</Link>
            </span>
          )}
        </>
      }
      actions={
        maySign && supersededBy === null && !feature ? (
          <LinkButton
            href={`/capability/statements/new?supersedes=${id}&part=${statement.part.id}&window=90`}
          >
            Supersede
          </LinkButton>
        ) : null
      }
    >
      {supersededBy === null ? null : (
        <Note kind="remark" title="Superseded">
          <Link href={`/capability/statements/${supersededBy}`}>Statement {supersededBy}</Link> took its
          place. This one stays as it was signed.
        </Note>
      )}
      {statement.isWhole ? null : (
        <Note kind="broken" title="Not as it was signed">
          What is stored does not have the digests that were signed. Do not use it; ask an admin to compare it
          with a backup.
        </Note>
      )}
      {feature ? (
        <StatedFeatureSheet
          content={content}
          feature={feature}
          readings={(await statementReadings(db, id))[position]!}
        />
      ) : (
        <>
          <nav aria-label="Forms to download" className={styles.files}>
            {SHEET_FORMS.map(({ form, words }) => (
              <LinkButton
                key={form}
                href={`/api/capability/statements/${id}/sheet?form=${form}`}
                prefetch={false}
                download
              >
                {words}
              </LinkButton>
            ))}
          </nav>
          <StatementOverview content={content} hrefOf={(sheet) => `${here}?sheet=${sheet}`} />
          <Section
            title="What it rests on"
            purpose="Kept with the statement. It can be recomputed at any time from today’s measurements."
          >
            <Provenance statement={statement} />
            <RecomputeForm id={id} />
          </Section>
          <Section
            title="Links for readers without an account"
            purpose="Read-only, to this statement alone. A link expires by itself and can be revoked; every viewing is kept."
          >
            <Shares id={id} shares={await sharesOf(db, id)} maySign={maySign} zone={zone} now={Date.now()} />
          </Section>
        </>
      )}
    </PageFrame>
  );
}
