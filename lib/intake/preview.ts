import type { FileNames, Notice, Refusal, TidyBatch } from "./batch";
import { DICTIONARY_COLUMNS, type DictionaryColumn, type FeatureAsFiled } from "./batch";
import { type Cell, cellText } from "./cells";
import { CsvReader, fieldText } from "./csv";
import { byteOrderMark, likelyEncoding } from "./encoding";
import { interpretCsv, interpretRows } from "./interpret";
import {
  type FileEncoding,
  headerFingerprint,
  type Mapping,
  type MappingProblem,
  type Separator,
  validateMapping,
} from "./mapping";
import { quoted } from "./numbers";
import { detectSeparator } from "./separator";
import { type Suggestion, suggestMapping } from "./suggest-mapping";
import { UnreadableFile } from "./unreadable-file";
import type { ZoneOffset } from "./zone";

/** One measurement as it would be taken, in words and numbers. Texts are empty where nothing is stated. */
export type AcceptedRow = {
  line: number;
  feature: FeatureAsFiled;
  value: number;
  takenAt: number | null;
  partTemp: number | null;
  /** On how many a count was found; null where the row does not say. */
  inspected: number | null;
  piece: string;
} & Record<DictionaryColumn, string>;

export type IntakePreview = {
  header: string[];
  /** The first rows of data as texts. */
  rows: string[][];
  fingerprint: string;
  suggestion: Suggestion;
  /** The mapping the rest of the preview is made with: the given one, else the suggested one. */
  mapping: Mapping;
  /** Why the mapping cannot read the file; `accepted` and `refused` are empty then. */
  problems: MappingProblem[];
  accepted: AcceptedRow[];
  refused: Refusal[];
  notices: Notice[];
  /** How much of the file this rests on: measurements that would be taken, rows that would be refused. */
  looked: { taken: number; refused: number; isWholeFile: boolean };
  /** The measurements that would be taken; null when the mapping cannot read the file. */
  measured: { names: FileNames; batches: TidyBatch[] } | null;
};

export type PreviewOptions = {
  /** Zone of times that state none: the plant's. */
  zone: ZoneOffset;
  /** The mapping to try; null suggests one. */
  mapping: Mapping | null;
  /** Rows of each kind to show. */
  rows: number;
  /**
   * Ends with the mapping and its problems: no row is tried, so that nothing is `looked` at or `measured`. For a caller
   * that reads the whole file next: 0.05 s of processor time.
   */
  endsWithMapping?: boolean;
};

/** Rows of data from which a mapping is suggested. */
const SAMPLE_ROWS = 50;
const PREVIEW_BATCH = 256;

/**
 * A look at the start of a CSV file: header, first rows, a mapping, and what would be taken and refused.
 *
 * `bytes` is the file or its beginning (256 KiB are plenty); say with `whole` whether it is all of it, because a
 * beginning may end in the middle of a row, which is then left out.
 *
 * @throws UnreadableFile when it is no text file, has no header, or is not in the encoding of the mapping
 */
export function previewCsv(bytes: Uint8Array, options: PreviewOptions & { whole: boolean }): IntakePreview {
  const encoding = options.mapping?.encoding ?? likelyEncoding(bytes);
  const separator = options.mapping?.separator ?? detectSeparator(startOfText(bytes, encoding));
  const texts: string[][] = [];
  const sample = new CsvReader({ separator, encoding }, (row) => {
    if (texts.length <= SAMPLE_ROWS)
      texts.push(Array.from({ length: row.count }, (_, index) => fieldText(row, index)));
  });
  feed(sample, bytes, options.whole);

  return preview(texts, options, { separator, encoding, isWhole: options.whole }, (mapping, sink) => {
    const file = interpretCsv(mapping, { zone: options.zone, batchRows: PREVIEW_BATCH }, sink);
    feed(file, bytes, options.whole);
    return file.names;
  });
}

/** The same look at the first rows of a sheet, the header first; `whole` says whether they are all of it. */
export function previewRows(
  rows: readonly { line: number; cells: readonly Cell[] }[],
  options: PreviewOptions & { whole?: boolean },
): IntakePreview {
  const decimal = options.mapping?.decimal ?? ".";
  const texts = rows
    .slice(0, SAMPLE_ROWS + 1)
    .map(({ cells }) => cells.map((cell) => cellText(cell, decimal)));
  const file = { separator: ",", encoding: "utf-8", isWhole: options.whole ?? false } as const;
  return preview(texts, options, file, (mapping, sink) => {
    const file = interpretRows(mapping, { zone: options.zone, batchRows: PREVIEW_BATCH }, sink);
    for (const { line, cells } of rows) file.push(line, cells);
    file.end();
    return file.names;
  });
}

type Collector = {
  batch(batch: TidyBatch): void;
  refusal(refusal: Refusal): void;
  notice(notice: Notice): void;
};

function preview(
  texts: string[][],
  options: PreviewOptions,
  { isWhole, ...file }: { separator: Separator; encoding: FileEncoding; isWhole: boolean },
  interpret: (mapping: Mapping, sink: Collector) => FileNames,
): IntakePreview {
  const [headerTexts, ...data] = texts.filter((row) => row.some((text) => text.trim() !== ""));
  if (headerTexts === undefined)
    throw new UnreadableFile("empty", null, "The file is empty: not even a header was found.");
  const header = headerTexts.map((text) => text.trim());
  const suggestion = suggestMapping(header, data, file);
  const mapping = options.mapping ?? suggestion.mapping;
  const problems =
    options.mapping === null && suggestion.isHeaderMissing
      ? [headerMissing(headerTexts)]
      : validateMapping(mapping, header);
  const rows = data.slice(0, options.rows);
  const found: IntakePreview = {
    header,
    rows,
    fingerprint: headerFingerprint(header),
    suggestion,
    mapping,
    problems,
    accepted: [],
    refused: [],
    notices: [],
    looked: { taken: 0, refused: 0, isWholeFile: isWhole },
    measured: null,
  };
  if (problems.length > 0 || options.endsWithMapping) return found;

  const batches: TidyBatch[] = [];
  const { looked } = found;
  const names = interpret(mapping, {
    batch(batch) {
      batches.push(batch);
      looked.taken += batch.count;
    },
    refusal(refusal) {
      looked.refused++;
      if (found.refused.length < options.rows) found.refused.push(refusal);
    },
    notice(notice) {
      if (found.notices.length < options.rows) found.notices.push(notice);
    },
  });
  found.measured = { names, batches };
  for (const batch of batches) {
    if (found.accepted.length >= options.rows) break;
    found.accepted.push(...acceptedRows(batch, names));
  }
  found.accepted = found.accepted.slice(0, options.rows);
  return found;
}

function headerMissing(firstRow: readonly string[]): MappingProblem {
  const shown = quoted(firstRow.join(" ").trim());
  return {
    field: "header",
    message: `The file has no header: its first row, ${shown}, holds measurements. Put a row above it that names the columns (feature, value, …).`,
  };
}

/** The measurements of a batch one by one. For people to look at; a whole file is better kept in columns. */
export function acceptedRows(batch: TidyBatch, names: FileNames): AcceptedRow[] {
  const absent = (number: number | undefined) =>
    number === undefined || Number.isNaN(number) ? null : number;
  return Array.from({ length: batch.count }, (_, i) => {
    const row = {
      line: batch.line[i] ?? 0,
      feature: names.features[batch.feature[i] ?? 0],
      value: batch.value[i],
      takenAt: absent(batch.takenAt[i]),
      partTemp: absent(batch.partTemp[i]),
      inspected: absent(batch.inspected?.[i]),
      piece: batch.pieces[batch.piece[i] ?? 0] ?? "",
    } as AcceptedRow;
    for (const column of DICTIONARY_COLUMNS) row[column] = names[column][batch[column][i] ?? 0] ?? "";
    return row;
  });
}

function startOfText(bytes: Uint8Array, encoding: FileEncoding): string {
  const label = byteOrderMark(bytes)?.label ?? (encoding === "utf-16" ? "utf-16le" : encoding);
  return new TextDecoder(label).decode(bytes.subarray(0, 65_536));
}

function feed(
  reader: { push(chunk: Uint8Array): void; flush(): void; end(): void },
  bytes: Uint8Array,
  whole: boolean,
): void {
  reader.push(bytes);
  if (whole) reader.end();
  else reader.flush();
}
