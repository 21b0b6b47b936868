import { numberWritten } from "../../lib/format/marks";

/** The kind of file, as its button names it in every language. */
export const CSV = "CSV";

/** What is read out or drawn beside a figure is no part of it. */
const NO_CONTENT = "[aria-hidden='true'], .only-read-out, svg, button, select, input, summary";

/** What a cell holds: a figure with all its digits, a moment as UTC, or its words; null for nothing. */
export function contentOf(cell: HTMLTableCellElement): string | number | null {
  const copy = cell.cloneNode(true) as HTMLTableCellElement;
  for (const element of copy.querySelectorAll(NO_CONTENT)) element.remove();
  const text = wordsOf(copy);
  if (text === "" || text === "–") return null;
  const figure = copy.querySelector("data");
  if (figure && wordsOf(figure) === text) return Number(figure.value);
  const moment = copy.querySelector("time");
  if (moment && wordsOf(moment) === text) return moment.dateTime;
  return numberWritten(text) ?? text;
}

function wordsOf(element: Element): string {
  return element.textContent?.replace(/\s+/g, " ").trim() ?? "";
}
