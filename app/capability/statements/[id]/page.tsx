import { notFound } from "next/navigation";
import { sharesOf, statementById, statementReadings } from "../../../../db/queries/statements";
import { partName } from "../../../../lib/format/names";
import { exactMomentIn } from "../../../../lib/format/times";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { LinkButton } from "../../../fittings/controls";
import { Filled } from "../../../fittings/filled";
import { Link } from "../../../fittings/link";
import { Note } from "../../../fittings/note";
import { PageFrame, Section } from "../../../fittings/page-frame";
import { words } from "../../../language/language";
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
  return { title: (await words()).statements.page.tab((await params).id) };
}

/** A statement as it was signed: overview, or with `?sheet=` the sheet of one feature. */
export default async function StatementPage({ params, searchParams }: Address) {
  const person = await requirePage("/capability/statements/[id]");
  await writePageAsSigned();
  const { statements, times } = await words();
  const { page: said } = statements;
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
          <Link href="/capability/statements">{statements.short}</Link>
          {feature ? (
            <>
              {" "}
              · <Link href={here}>{said.statement(id)}</Link>
            </>
          ) : null}
        </>
      }
      facts={
        <>
          <span>{said.of(id, `${partName(content.part)} ${content.part.name}`)}</span>
          <span>{said.signedBy(content.signedBy, exactMomentIn(content.frozenAt, zone, times))}</span>
          {supersedes === null ? null : (
            <span>
              <Filled
                text={said.supersedes}
                holes={{
                  statement: (
                    <Link href={`/capability/statements/${supersedes}`}>
                      {statements.statement(supersedes)}
                    </Link>
                  ),
                }}
              />
            </span>
          )}
        </>
      }
      actions={
        maySign && supersededBy === null && !feature ? (
          <LinkButton
            href={`/capability/statements/new?supersedes=${id}&part=${statement.part.id}&window=90`}
          >
            {said.supersede}
          </LinkButton>
        ) : null
      }
    >
      {supersededBy === null ? null : (
        <Note kind="remark" title={said.superseded}>
          <Filled
            text={said.supersededWhy}
            holes={{
              statement: (
                <Link href={`/capability/statements/${supersededBy}`}>{said.statement(supersededBy)}</Link>
              ),
            }}
          />
        </Note>
      )}
      {statement.isWhole ? null : (
        <Note kind="broken" title={said.notWhole}>
          {said.notWholeWhy}
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
          <nav aria-label={said.forms} className={styles.files}>
            {SHEET_FORMS.map((form) => (
              <LinkButton
                key={form}
                href={`/api/capability/statements/${id}/sheet?form=${form}`}
                prefetch={false}
                download
              >
                {said.formNames[form]}
              </LinkButton>
            ))}
          </nav>
          <StatementOverview content={content} hrefOf={(sheet) => `${here}?sheet=${sheet}`} />
          <Section title={said.rests} purpose={said.restsPurpose}>
            <Provenance statement={statement} />
            <RecomputeForm
              id={id}
              words={{
                caption: statements.recomputed.caption,
                heads: statements.recomputed.heads,
                unit: statements.recomputed.unit,
                working: statements.recomputed.working,
                recompute: statements.recomputed.recompute,
              }}
            />
          </Section>
          <Section title={said.links} purpose={said.linksPurpose}>
            <Shares
              id={id}
              shares={await sharesOf(db, id)}
              maySign={maySign}
              zone={zone}
              now={Date.now()}
              words={statements}
            />
          </Section>
        </>
      )}
    </PageFrame>
  );
}
