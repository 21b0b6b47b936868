/** A part of a long list, as somebody turns its pages; `from` and `to` count from 1. */
export type Paged<Row> = {
  rows: readonly Row[];
  page: number;
  pages: number;
  from: number;
  to: number;
  count: number;
};

/** Rows of a long table on one page: as many as a browser lays out at once without being felt. */
export const TABLE_ROWS = 250;

/** The page that an address names; the first where it names none. */
export function pageAsked(text: string | string[] | undefined): number {
  return typeof text === "string" && /^\d{1,9}$/.test(text) ? Number(text) : 1;
}

/**
 * The page that was asked for, counted from 1. A list gets shorter while somebody reads it: behind its end comes its
 * last page. What is no page number is the first.
 */
export function paged<Row>(
  rows: readonly Row[],
  { page: asked, size }: { page: number; size: number },
): Paged<Row> {
  const pages = Math.max(1, Math.ceil(rows.length / size));
  const page = Number.isInteger(asked) ? Math.min(pages, Math.max(1, asked)) : 1;
  const before = (page - 1) * size;
  const shown = rows.slice(before, before + size);
  const from = rows.length === 0 ? 0 : before + 1;
  return { rows: shown, page, pages, from, to: before + shown.length, count: rows.length };
}
