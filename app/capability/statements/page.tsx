import { listStatements } from "../../../db/queries/statements";
import { partName } from "../../../lib/format/names";
import { mayRun, requirePage } from "../../access";
import { database } from "../../database";
import { LinkButton } from "../../fittings/controls";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame } from "../../fittings/page-frame";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";

export async function generateMetadata() {
  return { title: (await words()).statements.title };
}

/** Every statement that was ever signed, superseded ones included. */
export default async function StatementsPage() {
  const person = await requirePage("/capability/statements");
  const { capability, statements: said } = await words();
  const { heads } = said;
  const [statements, { zone }] = await Promise.all([listStatements(await database()), plant()]);
  const make = mayRun(person, "signStatement") ? (
    <LinkButton kind="main" href="/capability/statements/new">
      {capability.newStatement}
    </LinkButton>
  ) : null;
  return (
    <PageFrame
      title={said.title}
      above={<Link href="/capability">{capability.title}</Link>}
      purpose={said.purpose}
      actions={make}
    >
      <Table
        caption={said.count(statements.length)}
        rows={statements}
        rowKey={({ id }) => id}
        empty={
          <Note kind="empty" title={said.none} actions={make}>
            {said.noneWhy}
          </Note>
        }
        columns={[
          {
            key: "id",
            head: heads.id,
            cell: ({ id, title }) => <Link href={`/capability/statements/${id}`}>{`${id}: ${title}`}</Link>,
          },
          { key: "part", head: heads.part, tight: true, cell: ({ part }) => partName(part) },
          { key: "features", head: heads.features, figures: true, cell: ({ features }) => features },
          { key: "at", head: heads.at, cell: ({ frozenAt }) => <When at={frozenAt} zone={zone} /> },
          { key: "by", head: heads.by, cell: ({ signedBy }) => signedBy ?? said.program },
          {
            key: "state",
            head: heads.state,
            cell: ({ supersededBy }) =>
              supersededBy === null ? (
                said.inForce
              ) : (
                <Filled
                  text={said.supersededBy}
                  holes={{
                    statement: (
                      <Link href={`/capability/statements/${supersededBy}`}>
                        {said.statement(supersededBy)}
                      </Link>
                    ),
                  }}
                />
              ),
          },
        ]}
      />
    </PageFrame>
  );
}
