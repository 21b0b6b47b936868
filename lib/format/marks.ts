/** The marks of written figures: what stands before the decimals, and between each three digits of a large one. */
export type Marks = { decimal: "." | ","; group: "" | "," | "." | "\u202f" };

/** What a plant may choose; "language" takes the marks of the language that is spoken. */
export const DECIMAL_MARKS = ["language", "point", "comma"] as const;
export type DecimalMark = (typeof DECIMAL_MARKS)[number];

/** "mark" is the one of point and comma that does not stand before the decimals. */
export const GROUPINGS = ["language", "none", "space", "mark"] as const;
export type Grouping = (typeof GROUPINGS)[number];

/** A thin space that does not break: what ISO 80000-1 and the SI brochure ask for (from memory). */
const THIN_SPACE = "\u202f";

/** How figures are written where nobody chose otherwise: on the command line, in files, in what is stored or signed. */
export const USUAL_MARKS: Marks = { decimal: ".", group: "," };

export function isDecimalMark(text: unknown): text is DecimalMark {
  return (DECIMAL_MARKS as readonly unknown[]).includes(text);
}

export function isGrouping(text: unknown): text is Grouping {
  return (GROUPINGS as readonly unknown[]).includes(text);
}

/** The marks that follow from a plant's choices and the language that is spoken. No two of the same, whatever is chosen. */
export function marksFor({
  decimal,
  grouping,
  language,
}: {
  decimal: DecimalMark;
  grouping: Grouping;
  language: string;
}): Marks {
  const isGerman = language === "de";
  const isComma = decimal === "comma" || (decimal === "language" && isGerman);
  const other = isComma ? "." : ",";
  // A thin space where nobody asks for a mark: a typed 12.345 is read as twelve and some, so none should be shown.
  const groups = {
    language: isGerman ? THIN_SPACE : other,
    none: "",
    space: THIN_SPACE,
    mark: other,
  } as const;
  return { decimal: isComma ? "," : ".", group: groups[grouping] };
}

let marksNow: () => Marks = () => USUAL_MARKS;

/**
 * Has figures be written with other marks from now on, wherever they are written by functions of this folder.
 *
 * A page, which knows the plant, says this once for all figures on it, as it does for its language. That the marks are
 * no argument of each figure is for the sentences in which figures stand: hundreds of calls would pass them on, and one
 * that forgot would write a comma beside a point. Nothing but a page or a printed sheet may call it: what is stored,
 * signed, sent or printed by the command line keeps the usual marks.
 */
export function writeMarksOf(source: () => Marks): void {
  marksNow = source;
}

/** The mark in force before decimals. */
export function decimalMark(): Marks["decimal"] {
  return marksNow().decimal;
}

/** What this makes, whatever marks the page has: for comparing with what was stored. */
export function withUsualMarks<T>(make: () => T): T {
  return writtenWith(USUAL_MARKS, make);
}

/** What this makes, at once, with other marks than those in force: texts of a page that an endpoint brings it. */
export function writtenWith<T>(marks: Marks, make: () => T): T {
  const before = marksNow;
  marksNow = () => marks;
  try {
    return make();
  } finally {
    marksNow = before;
  }
}

/** From this many digits on a figure is parted; one of four is read as it stands. */
const FEWEST_GROUPED = 5;

/** A figure as `toFixed` or `String` write it, with the marks in force. A power of ten stays as it is. */
export function withMarks(plain: string, marks: Marks = marksNow()): string {
  const found = /^(\D*)(\d+)(?:\.(\d+))?(e.*)?$/.exec(plain);
  if (found === null) return plain;
  const [, sign = "", whole = "", decimals, power = ""] = found;
  const parted = whole.length < FEWEST_GROUPED ? whole : whole.replace(/\B(?=(\d{3})+$)/g, marks.group);
  return `${sign}${parted}${decimals === undefined ? "" : marks.decimal + decimals}${power}`;
}

/**
 * The number that a figure written with these marks says; null for any other text, and where thousands are parted:
 * 12.345 could then be two numbers.
 */
export function numberWritten(text: string, marks: Marks = marksNow()): number | null {
  const { decimal, group } = marks;
  if (group !== "" && text.includes(group)) return null;
  const plain = text.replace(/^\u2212/, "-").replace(decimal, ".");
  const value = Number(plain);
  const isPlain = /^-?\d+(\.\d+)?$/.test(plain) && withMarks(plain.replace("-", "\u2212"), marks) === text;
  return isPlain ? value : null;
}
