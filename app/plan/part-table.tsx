import { use } from "react";
import type { PartRow } from "../../db/queries/features";
import { Link } from "../fittings/link";
import { Num } from "../fittings/num";
import { Table } from "../fittings/table";
import { words } from "../language/language";

/** All parts with how many features each has. */
export function PartTable({ parts }: { parts: readonly PartRow[] }) {
  const { partTable: said } = use(words()).plan;
  return (
    <Table
      caption={said.caption}
      isCaptionShown={false}
      rows={parts}
      rowKey={({ id }) => id}
      columns={[
        {
          key: "number",
          head: said.heads.part,
          tight: true,
          cell: ({ id, number }) => <Link href={`/plan/parts/${id}`}>{number}</Link>,
        },
        { key: "revision", head: said.heads.revision, cell: ({ revision }) => revision || "–" },
        { key: "name", head: said.heads.name, cell: ({ name }) => name || "–" },
        { key: "line", head: said.heads.line, cell: ({ line }) => line || "–" },
        { key: "material", head: said.heads.material, cell: ({ material }) => material || "–" },
        {
          key: "features",
          head: said.heads.features,
          figures: true,
          cell: ({ id, features }) => (
            <Link href={`/plan?part=${id}#features`}>
              <Num value={features} places={0} />
              <span className="only-read-out"> {said.features}</span>
            </Link>
          ),
        },
      ]}
    />
  );
}
