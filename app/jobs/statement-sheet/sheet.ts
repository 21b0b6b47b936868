import { readFileSync } from "node:fs";
import { join } from "node:path";
import PDFDocument from "pdfkit";
import type { Language } from "../../../lib/words/language";

export const PAPERS = ["a4", "letter"] as const;
export type Paper = (typeof PAPERS)[number];

/** Points: 72 to the inch. */
const MARGIN = 42;
const HEAD = 26;
const FOOT = 26;

export const INK = "#1b2126";
export const SOFT = "#55606a";
export const RULE = "#c9d0d6";
export const WASH = "#f0f3f5";

const FONTS = { plain: "DejaVuSans.ttf", bold: "DejaVuSans-Bold.ttf" } as const;
type Font = keyof typeof FONTS;

export type Style = { size?: number; font?: Font; color?: string };

export type SheetColumn = { head: string; width: number; align?: "left" | "right" };

/** What stands above and below every page. */
export type Running = {
  left: string;
  right: string;
  foot: string;
  /** "Page 1 of 3". */
  page: (page: number, of: number) => string;
};

/**
 * A printed sheet: text, tables and drawings that flow from page to page, with the same running head and "page x of y"
 * on each. Fonts are embedded, since a viewer's own may lack x̄, σ̂ and the shop's language.
 */
export class Sheet {
  readonly doc: PDFKit.PDFDocument;
  readonly left = MARGIN;
  readonly width: number;
  y = MARGIN + HEAD;
  readonly #bottom: number;
  readonly #chunks: Buffer[] = [];
  readonly #ended: Promise<void>;
  readonly #running: Running;

  constructor(
    paper: Paper,
    running: Running,
    { title, at, language }: { title: string; at: number; language: Language },
  ) {
    this.#running = running;
    this.doc = new PDFDocument({
      size: paper === "a4" ? "A4" : "LETTER",
      bufferPages: true,
      // Written on in the margins without a page being added.
      margin: 0,
      lang: language,
      displayTitle: true,
      // The moment of signing, so that the same statement is the same file.
      info: { Title: title, Creator: "Steadyrest", CreationDate: new Date(at) },
    });
    for (const [name, file] of Object.entries(FONTS)) this.doc.registerFont(name, fontFile(file));
    this.width = this.doc.page.width - 2 * MARGIN;
    this.#bottom = this.doc.page.height - MARGIN - FOOT;
    this.doc.on("data", (chunk: Buffer) => this.#chunks.push(chunk));
    this.#ended = new Promise((resolve) => this.doc.on("end", () => resolve()));
  }

  page(): void {
    this.doc.addPage();
    this.y = MARGIN + HEAD;
  }

  get room(): number {
    return this.#bottom - this.y;
  }

  /** A new page unless so much fits on this one. */
  need(height: number): void {
    if (height > this.room) this.page();
  }

  style({ size = 8.5, font = "plain", color = INK }: Style = {}): this {
    this.doc.font(font).fontSize(size).fillColor(color);
    return this;
  }

  /** Text at the cursor, which moves below it. A long one goes on over pages, paragraph by paragraph. */
  text(words: string, style: Style = {}, { gap = 3, indent = 0 } = {}): void {
    this.style(style);
    const options = { width: this.width - indent, lineGap: 1.5 };
    const height = this.doc.heightOfString(words, options);
    this.need(height);
    this.style(style).doc.text(words, this.left + indent, this.y, options);
    this.y += height + gap;
  }

  heading(words: string, size = 11): void {
    this.need(40);
    this.y += 6;
    this.text(words, { font: "bold", size }, { gap: 4 });
  }

  list(items: readonly string[]): void {
    for (const item of items) this.text(`–  ${item}`, { size: 7.5 }, { indent: 4, gap: 2 });
  }

  /** Figures to the right, words wrapped; the head is repeated on every page that the table reaches. */
  table(columns: readonly SheetColumn[], rows: readonly (readonly string[])[], style: Style = {}): void {
    const total = columns.reduce((sum, { width }) => sum + width, 0);
    const widths = columns.map(({ width }) => (width / total) * this.width);
    const heads = columns.map(({ head }) => head);
    const size = style.size ?? 7.5;
    const headHeight = this.#rowHeight(heads, widths, { size, font: "bold" });
    this.need(headHeight + 24);
    this.#row(columns, heads, widths, { size, font: "bold", height: headHeight });
    for (const row of rows) {
      const height = this.#rowHeight(row, widths, { size });
      if (height > this.room) {
        this.page();
        this.#row(columns, heads, widths, { size, font: "bold", height: headHeight });
      }
      this.#row(columns, row, widths, { size, height });
    }
    this.y += 5;
  }

  #rowHeight(cells: readonly string[], widths: readonly number[], style: Style): number {
    this.style(style);
    const heights = cells.map((cell, i) =>
      cell === "" ? 0 : this.doc.heightOfString(cell, { width: widths[i]! - 6, lineGap: 1 }),
    );
    return Math.max(8.5, ...heights) + 3.5;
  }

  #row(
    columns: readonly SheetColumn[],
    cells: readonly string[],
    widths: readonly number[],
    { height, ...style }: Style & { height: number },
  ): void {
    let x = this.left;
    for (const [i, cell] of cells.entries()) {
      const width = widths[i]!;
      this.style(style).doc.text(cell, x + 3, this.y + 1.5, {
        width: width - 6,
        lineGap: 1,
        align: columns[i]!.align ?? "left",
      });
      x += width;
    }
    this.y += height;
    this.line(this.left, this.y, this.left + this.width, this.y, RULE, style.font === "bold" ? 1 : 0.5);
  }

  /** One line that is never wrapped, placed in the style last set. */
  label(
    words: string,
    { x, y, width, align }: { x: number; y: number; width: number; align: "left" | "right" | "center" },
  ): void {
    const left = align === "left" ? 0 : width - this.doc.widthOfString(words);
    this.doc.text(words, x + (align === "center" ? left / 2 : left), y, { lineBreak: false });
  }

  line(x1: number, y1: number, x2: number, y2: number, color: string, width: number): void {
    this.doc.moveTo(x1, y1).lineTo(x2, y2).lineWidth(width).strokeColor(color).stroke();
  }

  /** Pairs of name and value in columns. */
  facts(pairs: readonly (readonly [name: string, value: string])[], perRow = 3): void {
    const width = this.width / perRow;
    for (let from = 0; from < pairs.length; from += perRow) {
      const row = pairs.slice(from, from + perRow);
      this.style({ size: 8 });
      const height =
        11 + Math.max(...row.map(([, value]) => this.doc.heightOfString(value, { width: width - 8 })));
      this.need(height);
      for (const [i, [name, value]] of row.entries()) {
        const x = this.left + i * width;
        this.style({ size: 7, color: SOFT }).doc.text(name, x, this.y, { width: width - 8 });
        this.style({ size: 8 }).doc.text(value, x, this.y + 9.5, { width: width - 8 });
      }
      this.y += height + 4;
    }
  }

  /** Puts the running head and the numbers on every page and gives the file. */
  async finish(): Promise<Buffer> {
    const { start, count } = this.doc.bufferedPageRange();
    const { left, right, foot, page } = this.#running;
    for (let i = start; i < start + count; i++) {
      this.doc.switchToPage(i);
      const below = this.doc.page.height - MARGIN - 10;
      const across = { x: this.left, width: this.width } as const;
      this.style({ size: 8, font: "bold" }).label(left, { ...across, y: MARGIN - 8, align: "left" });
      this.style({ size: 8, color: SOFT }).label(right, { ...across, y: MARGIN - 8, align: "right" });
      this.line(this.left, MARGIN + 6, this.left + this.width, MARGIN + 6, RULE, 0.75);
      this.style({ size: 7, color: SOFT }).label(foot, { ...across, y: below, align: "left" });
      this.label(page(i - start + 1, count), { ...across, y: below, align: "right" });
    }
    this.doc.end();
    await this.#ended;
    return Buffer.concat(this.#chunks);
  }
}

const fonts = new Map<string, Buffer>();

/** From the packages beside the running program. */
function fontFile(name: string): Buffer {
  const known = fonts.get(name);
  if (known) return known;
  const bytes = readFileSync(join(process.cwd(), "node_modules", "dejavu-fonts-ttf", "ttf", name));
  fonts.set(name, bytes);
  return bytes;
}
