import { crc32 } from "node:zlib";

export type Part = { name: string; bytes: Buffer };

/** The parts of a small workbook (ECMA-376, from memory) with these rows on its sheet. */
export function workbookParts(rows: readonly (readonly string[])[]): Part[] {
  const cell = (text: string) =>
    /^-?\d+(\.\d+)?$/.test(text) ? `<c><v>${text}</v></c>` : `<c t="inlineStr"><is><t>${text}</t></is></c>`;
  const sheet = rows.map((row, i) => `<row r="${i + 1}">${row.map(cell).join("")}</row>`).join("");
  const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
  const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const package_ = "http://schemas.openxmlformats.org/package/2006";
  const type = "application/vnd.openxmlformats-officedocument.spreadsheetml";
  return Object.entries({
    "[Content_Types].xml": `<Types xmlns="${package_}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Override PartName="/xl/workbook.xml" ContentType="${type}.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="${type}.worksheet+xml"/></Types>`,
    "_rels/.rels": `<Relationships xmlns="${package_}/relationships"><Relationship Id="rId1" Type="${office}/officeDocument" Target="xl/workbook.xml"/></Relationships>`,
    "xl/workbook.xml": `<workbook xmlns="${main}" xmlns:r="${office}"><sheets><sheet name="one" sheetId="1" r:id="rId1"/></sheets></workbook>`,
    "xl/_rels/workbook.xml.rels": `<Relationships xmlns="${package_}/relationships"><Relationship Id="rId1" Type="${office}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>`,
    "xl/worksheets/sheet1.xml": `<worksheet xmlns="${main}"><sheetData>${sheet}</sheetData></worksheet>`,
  }).map(([name, text]) => ({ name, bytes: Buffer.from(text) }));
}

/** An archive of stored parts (APPNOTE.TXT of the ZIP format, sections 4.3.7, 4.3.12 and 4.3.16, from memory). */
export function zipOf(parts: readonly Part[]): Buffer {
  const local: Buffer[] = [];
  const central: Buffer[] = [];
  let offset = 0;
  for (const { name, bytes } of parts) {
    const label = Buffer.from(name);
    const facts = Buffer.alloc(26);
    facts.writeUInt16LE(20, 0);
    facts.writeUInt32LE(crc32(bytes), 10);
    facts.writeUInt32LE(bytes.length, 14);
    facts.writeUInt32LE(bytes.length, 18);
    facts.writeUInt16LE(label.length, 22);
    const entry = Buffer.concat([Buffer.from("PK\x03\x04"), facts, label, bytes]);
    const place = Buffer.alloc(14);
    place.writeUInt32LE(offset, 10);
    central.push(Buffer.concat([Buffer.from("PK\x01\x02\x14\x00"), facts, place, label]));
    local.push(entry);
    offset += entry.length;
  }
  const directory = Buffer.concat(central);
  const end = Buffer.alloc(18);
  end.writeUInt16LE(parts.length, 4);
  end.writeUInt16LE(parts.length, 6);
  end.writeUInt32LE(directory.length, 8);
  end.writeUInt32LE(offset, 12);
  return Buffer.concat([...local, directory, Buffer.from("PK\x05\x06"), end]);
}
