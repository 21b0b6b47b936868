import type { Separator } from "./mapping";

const CANDIDATES: readonly Separator[] = [",", ";", "\t"];
const LINES_LOOKED_AT = 20;

/**
 * The separator of a CSV file, judged by its first lines (text from the start of the file).
 *
 * It must stand in the header, outside quotes, and the best one stands equally often in most of the lines below;
 * a tie goes to the one that makes more columns. With decimal commas and semicolons the header decides: it holds
 * no comma. A file with a single column gives the comma.
 */
export function detectSeparator(firstText: string): Separator {
  let best: Separator = ",";
  let bestScore = 0;
  for (const candidate of CANDIDATES) {
    const [header = 0, ...others] = countsByLine(firstText, candidate);
    if (header === 0) continue;
    const alike = others.filter((count) => count === header).length;
    const score = (others.length === 0 ? 1 : (alike + 0.5) / others.length) * 10_000 + Math.min(header, 999);
    if (score > bestScore) {
      best = candidate;
      bestScore = score;
    }
  }
  return best;
}

/** How often the separator stands outside quotes, for the first lines that are not empty. */
function countsByLine(text: string, separator: Separator): number[] {
  const counts: number[] = [];
  let count = 0;
  let empty = true;
  let quoted = false;
  for (let i = 0; i < text.length && counts.length < LINES_LOOKED_AT; i++) {
    const character = text[i];
    if (character === '"') quoted = !quoted;
    if (!quoted && (character === "\n" || character === "\r")) {
      if (!empty) counts.push(count);
      count = 0;
      empty = true;
      continue;
    }
    empty = false;
    if (!quoted && character === separator) count++;
  }
  // The last line may be cut off, so it counts only when it is the only one.
  if (counts.length === 0 && !empty) counts.push(count);
  return counts;
}
