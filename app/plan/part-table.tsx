import type { PartRow } from "../../db/queries/features";
import { Link } from "../fittings/link";
import { Num } from "../fittings/num";
import { Table } from "../fittings/table";

/** All parts with how many features each has. */
export function PartTable({ parts }: { parts: readonly PartRow[] }) {
  return (
    <Table
      caption="Parts of the control plan"
      isCaptionShown={false}
      rows={parts}
      rowKey={({ id }) => id}
      columns={[
        {
          key: "number",
          head: "Part",
          tight: true,
          cell: ({ id, number }) => <Link href={`/plan/parts/${id}`}>{number}</Link>,
        },
        { key: "revision", head: "Revision", cell: ({ revision }) => revision || "–" },
        { key: "name", head: "Name", cell: ({ name }) => name || "–" },
        { key: "line", head: "Line", cell: ({ line }) => line || "–" },
        { key: "material", head: "Material", cell: ({ material }) => material || "–" },
        {
          key: "features",
          head: "Features",
          figures: true,
          cell: ({ id, features }) => (
            <Link href={`/plan?part=${id}#features`}>
              <Num value={features} places={0} />
              <span className="only-read-out"> features</span>
            </Link>
          ),
        },
      ]}
    />
  );
}
