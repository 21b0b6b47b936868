import { Fragment, type ReactNode } from "react";
import { pieces } from "../../lib/words/fill";

/** A text whose holes are links, times or figures: "Since {first}, latest {latest}". */
export function Filled({ text, holes }: { text: string; holes: Readonly<Record<string, ReactNode>> }) {
  // Texts and holes take turns, so a place names its piece as long as the text stays the same.
  return pieces(text).map((piece, at) =>
    // Holes stand at odd places.
    at % 2 === 1 ? <Fragment key={piece}>{holes[piece]}</Fragment> : piece,
  );
}
