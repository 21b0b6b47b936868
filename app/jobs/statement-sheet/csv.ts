import { csvText } from "../../../lib/format/csv";
import { capabilityTable, listingTable } from "../../../lib/statement/tables";
import type { Printed } from "./pdf";

/** Dimensional results and capability, one line a feature and side by side: both have one. */
export function statementCsv({ content }: Printed): Buffer {
  const listing = listingTable(content);
  const capability = capabilityTable(content);
  const known = new Set(listing.head);
  const added = capability.head.flatMap((head, i) => (known.has(head) ? [] : [i]));
  return Buffer.from(
    csvText([
      [...listing.head, ...added.map((i) => capability.head[i]!)],
      ...listing.rows.map((row, k) => [...row, ...added.map((i) => capability.rows[k]![i]!)]),
    ]),
  );
}
