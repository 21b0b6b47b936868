import { PassThrough } from "node:stream";
import ExcelJS from "exceljs";
import { harmless } from "../../../lib/format/csv";
import { partName } from "../../../lib/format/names";
import {
  type Cell,
  capabilityTable,
  exclusionTable,
  gateTable,
  listingTable,
  type StatementTable,
  utc,
} from "../../../lib/statement/tables";
import { ENGLISH, type Words } from "../../../lib/words/words";
import { type Printed, windowWords } from "./pdf";

/**
 * A statement as a workbook: numbers as numbers in full precision, one sheet for the readings behind them.
 *
 * Every text is written as a text cell, never as a formula; ones that look like a formula are marked by an apostrophe
 * as in the CSV, so that they stay texts when somebody saves the sheet as CSV. Written as a stream, row by row.
 */
export async function statementXlsx(printed: Printed, words = ENGLISH): Promise<Buffer> {
  const { sheets, heads } = words.statements.workbook;
  const stream = new PassThrough();
  const chunks: Buffer[] = [];
  stream.on("data", (chunk: Buffer) => chunks.push(chunk));
  const workbook = new ExcelJS.stream.xlsx.WorkbookWriter({ stream, useStyles: true });
  workbook.created = new Date(printed.content.frozenAt);
  const { content } = printed;
  for (const table of [
    aboutTable(printed, words),
    capabilityTable(content, words),
    listingTable(content, words),
    gateTable(content, words),
    exclusionTable(content.features, words),
  ])
    addSheet(workbook, table.name, table.head, table.rows);
  addSheet(
    workbook,
    sheets.readings,
    [
      heads.feature,
      heads.takenAt,
      heads.reading,
      heads.measured,
      heads.unit,
      heads.lot,
      heads.piece,
      heads.gauge,
    ],
    readingRows(printed),
  );
  await workbook.commit();
  return Buffer.concat(chunks);
}

function* readingRows({ content, readings }: Printed): Generator<Cell[]> {
  for (const [k, feature] of content.features.entries()) {
    const { takenAt, value, measured, lot, piece, gauge } = readings[k]!;
    for (const [i, at] of takenAt.entries()) {
      yield [
        feature.name,
        utc(at),
        value[i]!,
        measured === null ? value[i]! : measured[i]!,
        feature.unit,
        lot[i]!,
        piece[i]!,
        gauge[i]!,
      ];
    }
  }
}

function aboutTable(
  { id, content, contentDigest, readingsDigest, supersedes, supersededBy }: Printed,
  words: Words,
): StatementTable {
  const { workbook, print } = words.statements;
  const { about: said } = workbook;
  return {
    name: workbook.sheets.about,
    head: [said.what, said.value],
    rows: [
      [said.statement, id],
      [said.title, content.title],
      [said.part, partName(content.part)],
      [said.partName, content.part.name],
      [said.plant, content.plant.name],
      [said.window, windowWords(content, words)],
      [said.lots, content.window.lots === null ? print.allLots : content.window.lots.join(", ")],
      [said.confidence, content.confidence],
      [said.signedBy, content.signedBy],
      [said.signedAt, utc(content.frozenAt)],
      [said.computedBy, `Steadyrest ${content.software}`],
      [said.supersedes, supersedes],
      [said.supersededBy, supersededBy],
      [said.contentDigest, contentDigest],
      [said.readingsDigest, readingsDigest],
    ],
  };
}

function addSheet(
  workbook: ExcelJS.stream.xlsx.WorkbookWriter,
  name: string,
  head: readonly string[],
  rows: Iterable<readonly Cell[]>,
): void {
  const sheet = workbook.addWorksheet(name, {
    views: [{ state: "frozen", ySplit: 1 }],
    pageSetup: { orientation: "landscape", fitToPage: true, fitToWidth: 1, fitToHeight: 0 },
  });
  sheet.columns = head.map((words) => ({ width: Math.max(12, Math.min(40, words.length + 2)) }));
  const first = sheet.addRow([...head]);
  first.font = { bold: true };
  first.commit();
  for (const row of rows)
    sheet.addRow(row.map((cell) => (typeof cell === "string" ? harmless(cell) : cell))).commit();
  sheet.commit();
}
