import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import ExcelJS from "exceljs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { statementCsv } from "../../app/jobs/statement-sheet/csv";
import { type Printed, statementPdf } from "../../app/jobs/statement-sheet/pdf";
import { statementXlsx } from "../../app/jobs/statement-sheet/xlsx";
import { fixed, fixedAtLeast } from "../../lib/format/numbers";
import { STATEMENT_FORMAT } from "../../lib/statement/content";
import { stateFeature } from "../../lib/statement/state-feature";
import { mean as meanOf } from "../../lib/summary/moments";
import { WORDS } from "../../lib/words/words";
import { poppler } from "../poppler.mjs";
import furnace from "../reference/furnace-film-thickness.json";
import { featureOf } from "./statement-feature";

/*
 * Sheets are read back by programs of others: pdftotext and pdftoppm of poppler-utils, and exceljs for the workbook.
 * The readings are NIST's 168 film thicknesses, whose capability the e-Handbook prints (3.5.1.2).
 */

const READINGS = furnace.data.thickness_angstrom;

function published(name: string): number {
  const found = furnace.printed.find((each) => each.name === name);
  if (typeof found?.printed !== "number") throw new Error(`the case study prints no ${name}`);
  return found.printed;
}

const folder = mkdtempSync(join(tmpdir(), "sheets-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const HOSTILE = '=HYPERLINK("x","y")';
/** As long as a name may be, in letters of another alphabet. */
const LONG = "Расстояние от базовой плоскости до оси отверстия под подшипник, "
  .repeat(2)
  .slice(0, 120)
  .trim();
const NAMES = ["Film thickness", "Łożysko, średnica Ø", HOSTILE, LONG];

async function printed(features: number): Promise<Printed> {
  const stated = [];
  for (let k = 0; k < features; k++) {
    const { behind, asked, namesOf } = featureOf({
      id: k + 1,
      name: NAMES[k] ?? `Feature ${k + 1}`,
      values: READINGS,
      tolerance: { lower: published("LSL"), upper: published("USL") },
    });
    stated.push(await stateFeature(behind, asked, namesOf));
  }
  return {
    id: 7,
    content: {
      format: STATEMENT_FORMAT,
      software: "0.1.0",
      title: "Für den Kunden: x̄ ± 3σ̂, ≤ 20 µm",
      plant: { name: "Test plant", zone: "Europe/Berlin" },
      part: { number: "P-77", revision: "D", name: "Wafer" },
      window: { words: "all measurements", from: null, to: null, lots: null },
      confidence: 0.95,
      frozenAt: Date.UTC(2026, 4, 4, 10),
      signedBy: "Ann Example",
      features: stated.map(({ feature }) => feature),
    },
    readings: stated.map(({ readings }) => readings),
    contentDigest: "c".repeat(64),
    readingsDigest: "d".repeat(64),
    supersedes: null,
    supersededBy: 9,
  };
}

describe.each(["a4", "letter"] as const)("the PDF on %s", (paper) => {
  let four: Printed;
  let file: string;
  let pages: string[];
  beforeAll(async () => {
    four = await printed(4);
    file = join(folder, `${paper}.pdf`);
    writeFileSync(file, await statementPdf(four, { paper }));
    // A form feed ends each page.
    pages = execFileSync(poppler("pdftotext"), ["-layout", file, "-"], { encoding: "utf8" }).split("\f");
    pages.pop();
  });

  test("carries part, revision, number and total on each page", () => {
    expect(pages.length).toBeGreaterThanOrEqual(5);
    for (const [i, page] of pages.entries()) {
      expect(page).toContain("P-77 rev D");
      expect(page).toContain(`Page ${i + 1} of ${pages.length}`);
      expect(page).toContain("Capability statement 7, superseded");
    }
  });

  test(`published: ${furnace.source}`, () => {
    const page = pages.find((text) => text.includes("Estimate"))!;
    const row = (name: string) => page.match(new RegExp(`^ *${name} +(\\d.*)$`, "m"))?.[1]?.split(/ {2,}/);
    // NIST takes Cp and Cpk with the standard deviation of all readings: our Pp and Ppk, rounded to two places.
    for (const [ours, theirs] of [
      ["Pp", "Cp"],
      ["Ppk", "Cpk"],
    ] as const) {
      const interval = [published(`${theirs} 95% CI low`), published(`${theirs} 95% CI high`)];
      expect(row(ours)?.[0]).toBe(published(theirs).toFixed(2));
      expect(row(ours)?.[2]).toBe(interval.map((end) => end.toFixed(2)).join(" to "));
    }
  });

  test("prints lower bounds rounded down, as the study has them", () => {
    const page = pages.find((text) => text.includes("Estimate"))!;
    const { study } = four.content.features[0]!;
    for (const name of ["Cp", "Cpk", "Pp", "Ppk"] as const) {
      const row = page.match(new RegExp(`^ *${name} +(\\d.*)$`, "m"))?.[1]?.split(/ {2,}/);
      expect(row?.slice(0, 2)).toEqual([fixed(study[name]!, 2), fixedAtLeast(study.lowerBounds[name]!, 2)]);
      // Signals are open: nobody is to quote an index of a stable process from this page.
      expect(row?.at(-1)).toBe(name.startsWith("C") ? "not presentable" : "performance");
    }
  });

  test("keeps the letters of the shop's language and of statistics", () => {
    // A mark over a letter makes pdftotext see a gap: spaces are left out on both sides.
    const letters = (text: string) => text.normalize("NFC").replace(/\s+/g, "");
    const whole = letters(pages.join("\n"));
    for (const words of [
      "Für den Kunden: x̄ ± 3σ̂, ≤ 20 µm",
      "Łożysko, średnica Ø",
      LONG,
      "σ̂ within subgroups",
      "A²",
    ])
      expect(whole).toContain(letters(words));
    const fonts = execFileSync(poppler("pdffonts"), [file], { encoding: "utf8" }).trim().split("\n").slice(2);
    expect(fonts.length).toBeGreaterThan(0);
    // emb, sub, uni: every font is inside the file.
    for (const line of fonts) expect(line).toMatch(/DejaVu.* yes +yes +yes /);
  });

  test("carries claims, cautions, gates, results and digests", () => {
    const flat = pages.join(" ").replace(/\s+/g, " ");
    expect(flat).toContain("Capability is no acceptance of product");
    expect(flat).toContain(`SHA-256 of the content: ${"c".repeat(64)}`);
    expect(flat).toContain("Dimensional results");
    for (const { study } of four.content.features)
      for (const { reason } of study.gates) expect(flat).toContain(reason.split(" ").slice(0, 4).join(" "));
  });

  test("draws its pictures: bars, curve and limits put ink on the page", () => {
    const picture = pages.findIndex((text) => text.includes("Histogram with")) + 1;
    const out = join(folder, `${paper}-page`);
    execFileSync(poppler("pdftoppm"), [
      "-r",
      "40",
      "-f",
      `${picture}`,
      "-l",
      `${picture}`,
      "-singlefile",
      file,
      out,
    ]);
    const { width, height, at } = readPpm(readFileSync(`${out}.ppm`));
    const [short, long] = paper === "a4" ? [595, 842] : [612, 792];
    expect(Math.abs(width - (short * 40) / 72)).toBeLessThan(2);
    expect(Math.abs(height - (long * 40) / 72)).toBeLessThan(2);
    let blue = 0;
    for (let y = 0; y < height; y++) {
      for (let x = 0; x < width; x++) {
        const [red, , b] = at(x, y);
        if (b - red > 40) blue++;
      }
    }
    expect(blue).toBeGreaterThan(300);
  });
});

/** The same film, told as what is missing: every figure is mirrored, and the indices stay as NIST prints them. */
test("one feature of negative readings, named in Greek, keeps its signs, letters and indices", async () => {
  const name = "Απόσταση από την επιφάνεια αναφοράς";
  const { behind, asked, namesOf } = featureOf({
    name,
    values: READINGS.map((value) => -value),
    tolerance: { lower: -published("USL"), upper: -published("LSL") },
  });
  const { feature, readings } = await stateFeature(behind, asked, namesOf);
  const one = await printed(1);
  const mirrored = { ...one, content: { ...one.content, features: [feature] }, readings: [readings] };
  const file = join(folder, "mirrored.pdf");
  writeFileSync(file, await statementPdf(mirrored, { paper: "letter" }));
  const text = execFileSync(poppler("pdftotext"), ["-layout", file, "-"], { encoding: "utf8" });
  // What goes before, a feature, results and signatures: no page is left over for a single one.
  expect(text.split("\f").length - 1).toBeLessThanOrEqual(3);
  expect(text.normalize("NFC").replace(/\s+/g, "")).toContain(name.replace(/\s+/g, ""));
  expect(text).toMatch(new RegExp(`^ *Pp +${published("Cp").toFixed(2)} `, "m"));
  expect(text).toMatch(new RegExp(`^ *Ppk +${published("Cpk").toFixed(2)} `, "m"));
  const line = text.split("\n").find((each) => each.includes(` ${READINGS.length} `));
  for (const end of [Math.min(...READINGS), Math.max(...READINGS), published("LSL"), published("USL")])
    expect(line).toContain(`−${end}`);
  // A hyphen is no minus: no number carries one.
  expect(text).not.toMatch(/(?<![\w-])-\d/);
});

test("sixty features have a page each and their place in every table", async () => {
  const bytes = await statementPdf(await printed(60), { paper: "a4" });
  const file = join(folder, "sixty.pdf");
  writeFileSync(file, bytes);
  const text = execFileSync(poppler("pdftotext"), ["-layout", file, "-"], { encoding: "utf8" });
  expect(text.split("\f").length - 1).toBeGreaterThanOrEqual(62);
  for (let k = 5; k <= 60; k++) expect(text).toContain(`Feature ${k}`);
});

test("the PDF speaks German, with its letters, and states the same figures", async () => {
  const [english, german] = await Promise.all(
    (["en", "de"] as const).map(async (language) => {
      const file = join(folder, `${language}.pdf`);
      writeFileSync(file, await statementPdf(await printed(1), { paper: "a4", words: WORDS[language] }));
      return execFileSync(poppler("pdftotext"), ["-layout", file, "-"], { encoding: "utf8" }).normalize(
        "NFC",
      );
    }),
  );
  expect(german).toContain("Fähigkeitsnachweis 7, ersetzt");
  expect(german).toMatch(/Vertrauensbereich, 95 %/);
  expect(german).toMatch(/Seite 1 von \d/);
  expect(german).not.toMatch(/\b(Gate|Reason|readings?|subgroups?|the)\b/);
  const figures = (text?: string) => text?.match(/^ *Ppk? +\d.*$/gm)?.map((row) => row.match(/\d+[.,]\d+/g));
  expect(figures(german)).toEqual(figures(english));
  expect(figures(english)).toHaveLength(2);
});

describe("the workbook", () => {
  let workbook: ExcelJS.Workbook;
  let three: Printed;
  beforeAll(async () => {
    three = await printed(3);
    workbook = new ExcelJS.Workbook();
    await workbook.xlsx.load((await statementXlsx(three)) as unknown as ArrayBuffer);
  });

  const column = (sheet: ExcelJS.Worksheet, head: string) => {
    const heads = (sheet.getRow(1).values as string[]).indexOf(head);
    return Array.from({ length: sheet.rowCount - 1 }, (_, i) => sheet.getRow(i + 2).getCell(heads).value);
  };

  test(`published: ${furnace.source}`, () => {
    const sheet = workbook.getWorksheet("Capability")!;
    // Half a unit of the last of five places that NIST prints.
    for (const [ours, theirs] of [
      ["Pp", "Cp"],
      ["Ppk", "Cpk"],
      ["Ppl", "Cpl"],
      ["Ppu", "Cpu"],
    ] as const)
      expect(Math.abs(Number(column(sheet, ours)[0]) - published(theirs))).toBeLessThan(5e-6);
  });

  test("holds numbers as numbers, equal to those of the study to the last digit", () => {
    const sheet = workbook.getWorksheet("Capability")!;
    const { study } = three.content.features[0]!;
    for (const name of ["Pp", "Ppk", "Ppl"] as const) {
      expect(column(sheet, name)[0]).toBe(study[name]);
      expect(column(sheet, `${name} at least`)[0]).toBe(study.lowerBounds[name]);
    }
    expect(column(sheet, "mean")[0]).toBe(study.mean);
    const listing = workbook.getWorksheet("Dimensional results")!;
    expect(column(listing, "min")[0]).toBe(Math.min(...READINGS));
    expect(column(listing, "max")[0]).toBe(Math.max(...READINGS));
    expect(column(listing, "mean")[0]).toBeCloseTo(meanOf(READINGS), 9);
  });

  test("holds the readings behind the figures, one a row", () => {
    const sheet = workbook.getWorksheet("Readings")!;
    expect(sheet.rowCount).toBe(1 + 3 * READINGS.length);
    expect(column(sheet, "value").slice(0, READINGS.length)).toEqual(READINGS);
  });

  test("has no formula, whatever a feature is called", () => {
    let cells = 0;
    workbook.eachSheet((sheet) =>
      sheet.eachRow((row) =>
        row.eachCell((cell) => {
          cells++;
          expect(cell.type).not.toBe(ExcelJS.ValueType.Formula);
        }),
      ),
    );
    expect(cells).toBeGreaterThan(500);
    expect(column(workbook.getWorksheet("Capability")!, "feature")).toContain(`'${HOSTILE}`);
  });
});

test("the CSV has a line a feature, numbers in full, formulas disarmed", async () => {
  const three = await printed(3);
  const text = statementCsv(three).toString();
  const lines = text.trimEnd().split("\r\n");
  expect(lines).toHaveLength(4);
  expect(text).toContain(String(three.content.features[0]!.study.Ppk));
  expect(lines[3]).toMatch(/^"'=HYPERLINK\(""x"",""y""\)"/);
});

/** A binary PPM: three numbers in text, then red, green and blue of each place. */
function readPpm(bytes: Buffer): {
  width: number;
  height: number;
  at: (x: number, y: number) => [number, number, number];
} {
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 40).toString("latin1"));
  if (!head) throw new Error("no PPM");
  const [width, height] = [Number(head[1]), Number(head[2])];
  const start = head[0].length;
  return {
    width,
    height,
    at: (x, y) => {
      const place = start + 3 * (y * width + x);
      return [bytes[place]!, bytes[place + 1]!, bytes[place + 2]!];
    },
  };
}
