import type { TableScanner } from "./scan";

/** What a scan under way is doing, and the share of it that is done, 0 to 1. */
export type ScanStep = { say: string; share: number };

/** Shares of the work: bringing pieces together, comparing all parts once, and once more for each source found. */
const LAID_OUT = 0.15;
const COMPARED = 0.6;
const FOUND = 0.95;

export function layingOut(part: number, parts: number): ScanStep {
  return { say: `laying out part ${part + 1} of ${parts}`, share: (LAID_OUT * part) / parts };
}

/**
 * A scanner that says before each table what it is about. How often parts are compared again is not known before: each
 * further time takes half of what is left.
 */
export function telling(
  scanOne: TableScanner,
  tables: number,
  onStep: (step: ScanStep) => void,
): TableScanner {
  let told = 0;
  return (...given) => {
    const round = Math.floor(told / tables);
    const part = told % tables;
    told++;
    const [from, to] = round === 0 ? [LAID_OUT, COMPARED] : [leftBefore(round), leftBefore(round + 1)];
    const share = from + ((to - from) * part) / tables;
    const once = round === 0 ? "comparing sources" : "comparing once more without what was found";
    onStep({ say: `${once}, part ${part + 1} of ${tables}`, share });
    return scanOne(...given);
  };
}

function leftBefore(round: number): number {
  return FOUND - (FOUND - COMPARED) * 0.5 ** (round - 1);
}

export const DESCRIBING: ScanStep = { say: "describing what was found", share: FOUND };
