import { listStatements } from "../../../db/queries/statements";
import { partName } from "../../../lib/format/names";
import { counted } from "../../../lib/format/numbers";
import { mayRun, requirePage } from "../../access";
import { database } from "../../database";
import { LinkButton } from "../../fittings/controls";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame } from "../../fittings/page-frame";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { plant } from "../../plant";

export const metadata = { title: "Capability statements" };

/** Every statement that was ever signed, superseded ones included. */
export default async function StatementsPage() {
  const person = await requirePage("/capability/statements");
  const [statements, { zone }] = await Promise.all([listStatements(await database()), plant()]);
  const make = mayRun(person, "signStatement") ? (
    <LinkButton kind="main" href="/capability/statements/new">
      New statement
    </LinkButton>
  ) : null;
  return (
    <PageFrame
      title="Capability statements"
      above={<Link href="/capability">Capability</Link>}
      purpose="What was signed for customers. A statement never changes; a new one supersedes it."
      actions={make}
    >
      <Table
        caption={counted(statements.length, "statement")}
        rows={statements}
        rowKey={({ id }) => id}
        empty={
          <Note kind="empty" title="No statement yet" actions={make}>
            A statement freezes what can be said of a part’s features, with the readings behind it, under the
            name of whoever signs it. It takes the role quality.
          </Note>
        }
        columns={[
          {
            key: "id",
            head: "Statement",
            cell: ({ id, title }) => <Link href={`/capability/statements/${id}`}>{`${id}: ${title}`}</Link>,
          },
          { key: "part", head: "Part", tight: true, cell: ({ part }) => partName(part) },
          { key: "features", head: "Features", figures: true, cell: ({ features }) => features },
          { key: "at", head: "Signed", cell: ({ frozenAt }) => <When at={frozenAt} zone={zone} /> },
          { key: "by", head: "By", cell: ({ signedBy }) => signedBy ?? "the program" },
          {
            key: "state",
            head: "In force",
            cell: ({ supersededBy }) =>
              supersededBy === null ? (
                "in force"
              ) : (
                <>
                  superseded by{" "}
                  <Link href={`/capability/statements/${supersededBy}`}>statement {supersededBy}</Link>
                </>
              ),
          },
        ]}
      />
    </PageFrame>
  );
}
