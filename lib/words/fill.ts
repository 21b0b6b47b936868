/**
 * A text with its holes filled: fill("Page {page} of {count}", { page: 1, count: 3 }).
 *
 * For texts that reach a component in the browser, since functions do not. A hole that nobody fills stays visible.
 */
export function fill(text: string, values: Readonly<Record<string, string | number>>): string {
  return text.replace(/\{(\w+)\}/g, (hole, name: string) => {
    const value = values[name];
    return value === undefined ? hole : String(value);
  });
}

/** The same in pieces, for a hole that becomes a link or a figure: ["before", "link", "after"], holes at odd places. */
export function pieces(text: string): string[] {
  return text.split(/\{(\w+)\}/);
}
