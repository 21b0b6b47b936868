import { fixed, placesWritten } from "../format/numbers";

/**
 * The least Cpk or Ppk where the control plan states none. Common practice, no source: customers usually ask for at
 * least 1.33 of key characteristics, and 1.00 just fits the tolerance.
 */
export const USUALLY_ASKED = { key: 1.33, other: 1 };

/** An index that is asked for, with two decimals as indices are written, or with those in which it was stated. */
export function askedWords(asked: number): string {
  return fixed(asked, Math.max(2, placesWritten(asked)));
}

export type AskedOf = { keyCharacteristic: boolean; indexAsked: number | null };

/** What is asked of a feature's Cpk, or of its Ppk where that is all that may be said. */
export function indexAsked({ keyCharacteristic, indexAsked: stated }: AskedOf): number {
  return stated ?? (keyCharacteristic ? USUALLY_ASKED.key : USUALLY_ASKED.other);
}
