import { use } from "react";
import type { Paged } from "../../lib/format/paged";
import type { Words } from "../../lib/words/words";
import { words } from "../language/language";
import { type Turner, TurnerLinks } from "./turner-links";

type Turned = {
  /** What is turned, for who hears the links without the list. */
  label: string;
  shown: Paged<unknown>;
  toPage: (page: number) => string;
};

/** Below a long list: which of its rows these are, with links to the others; nothing where all of them stand above. */
export function PageTurner(turned: Turned) {
  return <TurnerLinks turner={turnerOf(turned, use(words()).board)} />;
}

/** The same in words, for a list that a browser makes; null where all of its rows stand above. */
export function turnerOf({ label, shown, toPage }: Turned, { turning }: Words["board"]): Turner | null {
  const { page, pages, from, to, count } = shown;
  if (pages === 1) return null;
  const links = [
    ...(page > 2 ? [{ href: toPage(1), words: turning.first }] : []),
    ...(page > 1 ? [{ href: toPage(page - 1), words: turning.previous }] : []),
    ...(page < pages ? [{ href: toPage(page + 1), words: turning.next }] : []),
  ];
  return { label, rows: turning.shown(from, to, count), links };
}
