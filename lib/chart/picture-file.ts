import { InvalidInput } from "../checks";

/** One drawing of a chart: its SVG markup with looks of its own, and where it lies in the chart, in pixels. */
export type Drawing = {
  markup: string;
  left: number;
  top: number;
  width: number;
  height: number;
  /** The coordinates inside it; its own pixels where it states none. */
  viewBox: string | null;
};

/** An entry of the legend: a mark of 16 by 16 pixels and what it means. */
export type Meaning = { markup: string; words: string };

export type PictureFile = {
  title: string;
  /** Of what, and from when to when. */
  about: string;
  drawings: readonly Drawing[];
  legend: readonly Meaning[];
  width: number;
  height: number;
};

const EDGE = 16;
const LINE = 18;
const MARK = 16;
/** Wide enough for any letter at 13 px on the average of words; a line that ends early does no harm. */
const LETTER = 7.2;
const FACE = "Inter, system-ui, 'Helvetica Neue', Arial, sans-serif";
/** Ink on paper, as in the light look of the pages. */
const INK = "#182026";
const SOFT = "#4c565f";

/**
 * A chart as a picture that stands alone: heading, drawings, legend, on white. It needs no style sheet and no font
 * of ours, so any program that reads SVG 1.1 shows it.
 *
 * @throws InvalidInput when there is nothing to draw or its size is not above 0
 */
export function pictureFile({ title, about, drawings, legend, width, height }: PictureFile): {
  svg: string;
  width: number;
  height: number;
} {
  if (drawings.length === 0) throw new InvalidInput("pictureFile", "drawings", "none", "at least one");
  if (!(width > 0) || !(height > 0)) {
    throw new InvalidInput("pictureFile", "size", `${width} × ${height}`, "above 0");
  }
  const letters = Math.max(10, Math.floor(width / LETTER));
  const heading = [
    ...wrapped(title, letters).map((text) => ({ text, weight: 600, fill: INK })),
    ...wrapped(about, letters).map((text) => ({ text, weight: 400, fill: SOFT })),
  ];
  const top = EDGE + heading.length * LINE + 8;
  const rows = legendRows(legend, width);
  const whole = { width: Math.ceil(width + 2 * EDGE), height: Math.ceil(top + height + rows.height + EDGE) };
  const parts = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${whole.width}" height="${whole.height}" viewBox="0 0 ${whole.width} ${whole.height}" font-family="${FACE}" font-size="13">`,
    `<title>${escaped([title, about].filter(Boolean).join(", "))}</title>`,
    `<rect width="100%" height="100%" fill="#ffffff"/>`,
    ...heading.map(
      ({ text, weight, fill }, i) =>
        `<text x="${EDGE}" y="${EDGE + (i + 1) * LINE - 5}" font-weight="${weight}" fill="${fill}">${escaped(text)}</text>`,
    ),
    ...drawings.map((one) => placed(one, { x: EDGE + one.left, y: top + one.top })),
    ...rows.entries.map(
      ({ markup, words, x, y }) =>
        `${placed({ markup, width: MARK, height: MARK, viewBox: "0 0 16 16" }, { x: EDGE + x, y: top + height + y })}<text x="${EDGE + x + MARK + 4}" y="${top + height + y + 12}" fill="${INK}">${escaped(words)}</text>`,
    ),
    "</svg>",
  ];
  return { svg: parts.join("\n"), ...whole };
}

function placed(
  { markup, width, height, viewBox }: Omit<Drawing, "left" | "top">,
  { x, y }: { x: number; y: number },
): string {
  const box = viewBox === null ? "" : ` viewBox="${escaped(viewBox)}"`;
  return `<svg x="${x}" y="${y}" width="${width}" height="${height}"${box} overflow="visible">${markup}</svg>`;
}

/** Entries side by side, on the next row where they would leave the picture. */
function legendRows(legend: readonly Meaning[], width: number) {
  let x = 0;
  let y = 10;
  const entries = legend.map((meaning) => {
    const wide = MARK + 4 + meaning.words.length * LETTER + 14;
    if (x > 0 && x + wide > width) {
      x = 0;
      y += LINE + 4;
    }
    const entry = { ...meaning, x, y };
    x += wide;
    return entry;
  });
  return { entries, height: legend.length === 0 ? 0 : y + LINE };
}

/** Words on lines of at most so many letters; a longer word has a line of its own. */
function wrapped(text: string, letters: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/).filter(Boolean)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= letters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function escaped(text: string): string {
  return text
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");
}
