import { csvText } from "../../lib/format/csv";
import type { Refusal } from "../../lib/intake/batch";

/** Refused rows as a CSV file for a spreadsheet; the page says beside the download how such rows are made harmless. */
export function refusalsCsv(refusals: readonly Refusal[]): string {
  const rows = refusals.map(({ line, field, reason, raw }) => [String(line), field, reason, raw]);
  return csvText([["line", "field", "reason", "row as it stood"], ...rows]);
}
