import type { IntakeProgress } from "../../db/intake/import-file";
import type { IntakeCounts } from "../../db/intake/record-intake";
import { fixed, whole } from "../../lib/format/numbers";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";

/** What intakes come to, in the words of a language: strings, for they are said in the browser as well. */
export type ResultWords = Words["desk"]["results"];

/** "1 row", "320 rows": a count in its text for one or for many. */
export function countedIn(count: number, { one, many }: { one: string; many: string }): string {
  return fill(count === 1 ? one : many, { count: whole(count) });
}

function countedOrNone(count: number, words: { none: string; one: string; many: string }): string {
  return count === 0 ? words.none : countedIn(count, words);
}

/** "320 measurements stored, 3 rows refused, 12 there already; 4 signals, 1 alarm." Zeros are left out but the first. */
export function resultWords(counts: IntakeCounts, words: ResultWords): string {
  const { accepted, refused, duplicates, corrections, late, signals, alarms } = counts;
  const stored = [
    countedIn(accepted, words.stored),
    refused > 0 ? countedIn(refused, words.refused) : "",
    duplicates > 0 ? fill(words.duplicates, { count: whole(duplicates) }) : "",
    corrections > 0 ? fill(words.corrections, { count: whole(corrections) }) : "",
    late > 0 ? fill(words.late, { count: whole(late) }) : "",
  ];
  return fill(accepted + corrections > 0 ? words.found : words.only, {
    stored: stored.filter((said) => said !== "").join(", "),
    signals: countedOrNone(signals, words.signals),
    alarms: countedOrNone(alarms, words.alarms),
  });
}

/** Who brought an intake in: a person by name, or the way it came by itself. */
export function broughtBy(
  { by, kind, file }: { by: string | null; kind: string; file: string },
  words: Words["intake"]["table"],
): string {
  if (by !== null) return by;
  if (kind === "folder") return words.folder;
  return kind === "post" ? file : words.commandLine;
}

/** "5 features need a look": those with an alarm that nobody has closed. */
export function lookWords(count: number, { look }: ResultWords): string {
  return countedOrNone(count, look);
}

export function progressWords(progress: IntakeProgress | null, words: ResultWords): string {
  if (progress === null) return words.opening;
  if (progress.step === "reading") return countedIn(progress.rows, words.reading);
  const at = Math.min(progress.done + 1, progress.total);
  return fill(words.storing, { at: whole(at), all: whole(progress.total) });
}

/** Share of the whole work, reading taken as half of it; null where a sheet does not tell its length. */
export function progressShare(progress: IntakeProgress | null): number | null {
  if (progress === null || progress.total === 0) return null;
  const share = progress.done / progress.total;
  return progress.step === "reading" ? share / 2 : 0.5 + share / 2;
}

/** "18 KB", "12.4 MB", "2 GB", in units of 1,024. */
export function sizeWords(bytes: number, words: ResultWords): string {
  if (bytes < 1024) return countedIn(bytes, words.bytes);
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
