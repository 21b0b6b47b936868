import type { Metadata } from "next";
import { statementReadings } from "../../../db/queries/statements";
import { partName } from "../../../lib/format/names";
import { exactMomentIn } from "../../../lib/format/times";
import type { Words } from "../../../lib/words/words";
import { openPage } from "../../access";
import { Provenance } from "../../capability/statements/[id]/provenance";
import { StatedFeatureSheet, StatementOverview } from "../../capability/statements/statement-sheet";
import styles from "../../capability/statements/statements.module.css";
import { database } from "../../database";
import { LinkButton } from "../../fittings/controls";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { writePageAsSigned } from "../../shown/as-signed";
import { opened } from "../opened";

/** Not for search engines, and not sent on as a referrer. */
export async function generateMetadata(): Promise<Metadata> {
  const { shared } = (await words()).statements;
  return { title: shared.tab, robots: { index: false, follow: false }, referrer: "no-referrer" };
}

type Address = {
  params: Promise<{ token: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

/** One statement for a reader without an account: what was signed, and nothing else of the plant. */
export default async function SharedStatementPage({ params, searchParams }: Address) {
  await openPage("/statement/[token]");
  await writePageAsSigned();
  const { statements, times } = await words();
  const { shared: said, page } = statements;
  const { token } = await params;
  const wanted = Number((await searchParams).sheet);
  const found = await opened(token, Number.isSafeInteger(wanted) ? `sheet ${wanted}` : "page");
  if (found.state !== "open") return <Closed isBusy={found.state === "busy"} words={said} />;
  const { statement, expiresAt } = found;
  const { content, supersededBy } = statement;
  const { zone } = content.plant;
  const position = wanted - 1;
  const feature = Number.isSafeInteger(position) ? content.features[position] : undefined;
  const here = `/statement/${token}`;
  return (
    <PageFrame
      title={feature ? feature.name : content.title}
      above={feature ? <Link href={here}>{said.whole}</Link> : null}
      facts={
        <>
          <span>
            {partName(content.part)} {content.part.name}
          </span>
          <span>
            {said.signedBy(
              content.signedBy,
              content.plant.name,
              exactMomentIn(content.frozenAt, zone, times),
            )}
          </span>
          <span>
            <Filled text={said.expires} holes={{ day: <When at={expiresAt} zone={zone} as="day" /> }} />
          </span>
        </>
      }
    >
      {supersededBy === null ? null : (
        <Note kind="remark" title={page.superseded}>
          {said.superseded}
        </Note>
      )}
      {feature ? (
        <StatedFeatureSheet
          content={content}
          feature={feature}
          readings={(await statementReadings(await database(), statement.id))[position]!}
        />
      ) : (
        <>
          <nav aria-label={page.forms} className={styles.files}>
            {(["a4", "letter"] as const).map((form) => (
              <LinkButton
                key={form}
                href={`/api/statement/${token}/sheet?form=${form}`}
                prefetch={false}
                download
              >
                {page.formNames[form]}
              </LinkButton>
            ))}
          </nav>
          <StatementOverview content={content} hrefOf={(sheet) => `${here}?sheet=${sheet}`} />
          <Section title={page.rests}>
            <Provenance statement={statement} />
          </Section>
        </>
      )}
    </PageFrame>
  );
}

function Closed({ isBusy, words: said }: { isBusy: boolean; words: Words["statements"]["shared"] }) {
  return (
    <PageFrame title={isBusy ? said.busy : said.closed}>
      <Note kind="empty">{isBusy ? said.busyWhy : said.closedWhy}</Note>
    </PageFrame>
  );
}
