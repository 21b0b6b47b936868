import type { IntakeProgress } from "../../db/intake/import-file";
import type { IntakeCounts } from "../../db/intake/record-intake";
import { counted, fixed, whole } from "../../lib/format/numbers";

/** "320 measurements stored, 3 rows refused, 12 there already; 4 signals, 1 alarm." Zeros are left out but the first. */
export function resultWords(counts: IntakeCounts): string {
  const { accepted, refused, duplicates, corrections, late, signals, alarms } = counts;
  const stored = [
    `${counted(accepted, "measurement")} stored`,
    refused > 0 ? `${counted(refused, "row")} refused` : "",
    duplicates > 0 ? `${whole(duplicates)} there already` : "",
    corrections > 0 ? `${whole(corrections)} corrected` : "",
    late > 0 ? `${whole(late)} late` : "",
  ];
  const found =
    accepted + corrections > 0
      ? `; ${signals > 0 ? counted(signals, "signal") : "no signals"}, ${alarms > 0 ? counted(alarms, "alarm") : "no alarms"}`
      : "";
  return `${stored.filter((words) => words !== "").join(", ")}${found}.`;
}

/** Who brought an intake in: a person by name, or the way it came by itself. */
export function broughtBy({ by, kind, file }: { by: string | null; kind: string; file: string }): string {
  if (by !== null) return by;
  if (kind === "folder") return "watched folder";
  return kind === "post" ? file : "command line";
}

/** "5 features need a look": those with an alarm that nobody has closed. */
export function lookWords(count: number): string {
  if (count === 0) return "No feature needs a look.";
  return count === 1 ? "1 feature needs a look." : `${whole(count)} features need a look.`;
}

export function progressWords(progress: IntakeProgress | null): string {
  if (progress === null) return "Opening the file";
  if (progress.step === "storing")
    return `Storing and judging: feature ${whole(Math.min(progress.done + 1, progress.total))} of ${whole(progress.total)}`;
  return `Reading: ${counted(progress.rows, "measurement")} so far`;
}

/** Share of the whole work, reading taken as half of it; null where a sheet does not tell its length. */
export function progressShare(progress: IntakeProgress | null): number | null {
  if (progress === null || progress.total === 0) return null;
  const share = progress.done / progress.total;
  return progress.step === "reading" ? share / 2 : 0.5 + share / 2;
}

/** "18 KB", "12.4 MB", "2 GB", in units of 1,024. */
export function sizeWords(bytes: number): string {
  if (bytes < 1024) return counted(bytes, "byte");
  const units = ["KB", "MB", "GB", "TB"];
  let size = bytes / 1024;
  let unit = 0;
  while (size >= 1023.95 && unit < units.length - 1) {
    size /= 1024;
    unit++;
  }
  const shown = unit === 0 || Number.isInteger(size) ? whole(size) : fixed(size, 1);
  return `${shown}\u00a0${units[unit]}`;
}
