import { createReadStream } from "node:fs";
import { SaxesParser, type SaxesTagPlain } from "saxes";
import type { Cell } from "../../lib/intake/cells";
import {
  isLearned,
  isMeasurement,
  isResults,
  QIF_COLUMNS,
  QifDocument,
} from "../../lib/intake/qif/qif-document";
import type { XmlRecord } from "../../lib/intake/qif/xml-record";
import { UnreadableFile } from "../../lib/intake/unreadable-file";

export type QifLimits = {
  /** Elements within elements. */
  depth: number;
  /** Elements of one thing that is read whole, and characters in it. */
  recordElements: number;
  recordCharacters: number;
};
export const QIF_LIMITS: QifLimits = { depth: 100, recordElements: 20_000, recordCharacters: 1_000_000 };

export type OnQifRow = (line: number, cells: readonly Cell[]) => void;
export type OnQifNotice = (notice: { line: number; message: string }) => void;

const CHUNK_BYTES = 1 << 18;

/**
 * Reads a QIF results document (ISO 23952) as rows of a tidy measurement file, the header first, in memory that
 * does not grow with the number of measurements.
 *
 * The document is read twice, because things are referred to before they are described. Entities are never
 * expanded: a document with a document type declaration is turned away.
 *
 * @throws UnreadableFile when it is no XML, no QIF, holds no measurements, or goes beyond the limits; whatever
 *   `onRow` throws passes through
 */
export async function readQif(
  path: string,
  limits: QifLimits,
  { onRow, onNotice }: { onRow: OnQifRow; onNotice: OnQifNotice },
): Promise<void> {
  const document = new QifDocument();
  let measurements = 0;
  await readRecords(path, limits, {
    isWanted: (name, parent) => isLearned(name, parent) || isMeasurement(name),
    onRecord(record, results) {
      if (isMeasurement(record.name)) measurements++;
      else document.learn(record, results);
    },
  });
  if (measurements === 0) {
    throw new UnreadableFile(
      "empty",
      null,
      "The QIF document holds no measured characteristics: it describes a part or a plan. Export the results of an inspection.",
    );
  }
  const only = (each: (record: XmlRecord, results: string) => void) =>
    readRecords(path, limits, { isWanted: isMeasurement, onRecord: each });
  await only((record) => document.weigh(record));

  for (const remark of document.remarks()) onNotice(remark);
  onRow(1, QIF_COLUMNS);
  await only((record, results) => {
    const { line, cells, notices } = document.rowOf(record, results);
    for (const message of notices) onNotice({ line, message });
    onRow(line, cells);
  });
}

type Reader = {
  isWanted: (name: string, parent: string) => boolean;
  /** A wanted element with all that is in it, and the number of the results it stands in. */
  onRecord: (record: XmlRecord, results: string) => void;
};

async function readRecords(path: string, limits: QifLimits, reader: Reader): Promise<void> {
  const parser = new SaxesParser();
  const open: { name: string; id: string }[] = [];
  const within: XmlRecord[] = [];
  let results = "";
  let elements = 0;
  let characters = 0;

  parser.on("error", (error) => {
    throw new UnreadableFile("xml", parser.line, `this is not well-formed XML (${plain(error.message)}).`);
  });
  parser.on("doctype", () => {
    throw new UnreadableFile(
      "xml",
      parser.line,
      "the document has a document type declaration. QIF needs none, and entities are not expanded; export it without.",
    );
  });
  parser.on("opentag", (tag: SaxesTagPlain) => {
    const name = withoutPrefix(tag.name);
    if (open.length === 0 && name !== "QIFDocument")
      throw new UnreadableFile("unsupported", parser.line, `this is XML, but “${name}” is no QIF document.`);
    if (open.length >= limits.depth)
      throw new UnreadableFile("xml", parser.line, `elements lie more than ${limits.depth} deep.`);
    const id = String(tag.attributes.id ?? "");
    if (isResults(name)) results = id || `at line ${parser.line}`;
    const parent = within.at(-1);
    if (parent !== undefined || reader.isWanted(name, open.at(-1)?.name ?? "")) {
      if (parent === undefined) elements = characters = 0;
      if (++elements > limits.recordElements) throw tooLong(parser.line, limits);
      const record = { name, line: parser.line, attributes: tag.attributes, children: [], text: "" };
      parent?.children.push(record);
      within.push(record);
    }
    open.push({ name, id });
  });
  const addText = (text: string) => {
    const record = within.at(-1);
    if (record === undefined) return;
    characters += text.length;
    if (characters > limits.recordCharacters) throw tooLong(parser.line, limits);
    record.text += text;
  };
  parser.on("text", addText);
  parser.on("cdata", addText);
  parser.on("closetag", () => {
    const closed = open.pop();
    const record = within.pop();
    if (record !== undefined && within.length === 0) reader.onRecord(record, results);
    if (closed !== undefined && isResults(closed.name)) results = "";
  });

  let decoder: TextDecoder | null = null;
  for await (const chunk of createReadStream(path, { highWaterMark: CHUNK_BYTES })) {
    decoder ??= decoderFor(chunk as Buffer);
    parser.write(decoded(decoder, chunk as Buffer, parser.line));
  }
  parser.write(decoder ? decoded(decoder, null, parser.line) : "");
  parser.close();
}

/** By byte order mark, else by the XML declaration, else UTF-8 (XML 1.0, appendix F; from memory). */
function decoderFor(start: Buffer): TextDecoder {
  const mark = start.subarray(0, 2).toString("hex");
  if (mark === "fffe") return new TextDecoder("utf-16le", { fatal: true });
  if (mark === "feff") return new TextDecoder("utf-16be", { fatal: true });
  const [, label = "utf-8"] =
    /^\s*<\?xml[^>]*\sencoding\s*=\s*["']([\w.:-]+)["']/.exec(start.subarray(0, 200).toString("latin1")) ??
    [];
  try {
    return new TextDecoder(label, { fatal: true });
  } catch {
    throw new UnreadableFile(
      "encoding",
      1,
      `the encoding “${label}” is not known. Export the document as UTF-8.`,
    );
  }
}

function decoded(decoder: TextDecoder, chunk: Buffer | null, line: number): string {
  try {
    return chunk ? decoder.decode(chunk, { stream: true }) : decoder.decode();
  } catch {
    throw new UnreadableFile(
      "encoding",
      line,
      `the bytes after this line are not ${decoder.encoding}, which the document says it is. Export it again.`,
    );
  }
}

function withoutPrefix(name: string): string {
  return name.slice(name.indexOf(":") + 1);
}

/** The parser's message without its own place and file, which ours gives. */
function plain(message: string): string {
  return message.replace(/^[^ ]*\d+:\d+: /, "").replace(/\.$/, "");
}

function tooLong(line: number, { recordElements, recordCharacters }: QifLimits): UnreadableFile {
  return new UnreadableFile(
    "field-too-long",
    line,
    `one thing in the document holds more than ${recordElements.toLocaleString("en-US")} elements or ${recordCharacters.toLocaleString("en-US")} characters.`,
  );
}
