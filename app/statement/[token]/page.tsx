import { statementReadings } from "../../../db/queries/statements";
import { partName } from "../../../lib/format/names";
import { exactMomentIn } from "../../../lib/format/times";
import { openPage } from "../../access";
import { Provenance } from "../../capability/statements/[id]/provenance";
import { StatedFeatureSheet, StatementOverview } from "../../capability/statements/statement-sheet";
import styles from "../../capability/statements/statements.module.css";
import { database } from "../../database";
import { LinkButton } from "../../fittings/controls";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { When } from "../../fittings/when";
import { writePageAsSigned } from "../../shown/as-signed";
import { opened } from "../opened";

/** Not for search engines, and not sent on as a referrer. */
export const metadata = {
  title: "Capability statement",
  robots: { index: false, follow: false },
  referrer: "no-referrer",
};

type Address = {
  params: Promise<{ token: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
};

/** One statement for a reader without an account: what was signed, and nothing else of the plant. */
export default async function SharedStatementPage({ params, searchParams }: Address) {
  await openPage("/statement/[token]");
  await writePageAsSigned();
  const { token } = await params;
  const wanted = Number((await searchParams).sheet);
  const found = await opened(token, Number.isSafeInteger(wanted) ? `sheet ${wanted}` : "page");
  if (found.state !== "open") return <Closed isBusy={found.state === "busy"} />;
  const { statement, expiresAt } = found;
  const { content, supersededBy } = statement;
  const { zone } = content.plant;
  const position = wanted - 1;
  const feature = Number.isSafeInteger(position) ? content.features[position] : undefined;
  const here = `/statement/${token}`;
  return (
    <PageFrame
      title={feature ? feature.name : content.title}
      above={feature ? <Link href={here}>The whole statement</Link> : null}
      facts={
        <>
          <span>
            {partName(content.part)} {content.part.name}
          </span>
          <span>
            Signed by {content.signedBy}, {content.plant.name}, {exactMomentIn(content.frozenAt, zone)}
          </span>
          <span>
            This link expires on <When at={expiresAt} zone={zone} as="day" />
          </span>
        </>
      }
    >
      {supersededBy === null ? null : (
        <Note kind="remark" title="Superseded">
          Another statement took the place of this one. Ask whoever sent the link for it.
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
          <nav aria-label="Forms to download" className={styles.files}>
            {(["a4", "letter"] as const).map((form) => (
              <LinkButton
                key={form}
                href={`/api/statement/${token}/sheet?form=${form}`}
                prefetch={false}
                download
              >
                {form === "a4" ? "PDF, A4" : "PDF, Letter"}
              </LinkButton>
            ))}
          </nav>
          <StatementOverview content={content} hrefOf={(sheet) => `${here}?sheet=${sheet}`} />
          <Section title="What it rests on">
            <Provenance statement={statement} />
          </Section>
        </>
      )}
    </PageFrame>
  );
}

function Closed({ isBusy }: { isBusy: boolean }) {
  return (
    <PageFrame title={isBusy ? "Opened too often" : "This link opens nothing"}>
      <Note kind="empty">
        {isBusy
          ? "This link was opened very often within a minute. Wait a minute and try again."
          : "It may have expired, been revoked or been copied in part. Ask whoever sent it for a new one."}
      </Note>
    </PageFrame>
  );
}
