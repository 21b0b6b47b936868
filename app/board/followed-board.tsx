"use client";

import { useRouter } from "next/navigation";
import { createContext, type ReactNode, use, useEffect, useState } from "react";
import { lineOfThisTab } from "../news/this-tab";
import { BandSection, type BandView } from "./band-section";
import type { BoardChoices, BoardFilter } from "./board-filter";
import { BoardFilterForm, type FilterWords } from "./board-filter-form";
import { boardLooks } from "./board-looks";
import type { RowWords } from "./board-rows";
import { type QuietHeads, QuietSection, type QuietView } from "./quiet-section";

/** What a board shows of its features, ready to be shown; see `boardView`. */
export type BoardView = {
  /** The latest news when it was read. */
  since: number;
  /** Another one than that of the page: what stands around the bands has changed, and the page is made anew. */
  frame: string;
  /** How many features, and how old the latest measurement is. */
  features: string;
  latest: string;
  choices: BoardChoices;
  act: BandView;
  watch: BandView;
  quiet: QuietView;
};

/** What the bands say, whatever stands in them. */
export type BandWords = {
  act: { title: string; words: string };
  watch: { title: string; words: string };
  quiet: { title: string; heads: QuietHeads };
  row: RowWords;
};

const Shown = createContext<BoardView | null>(null);

/**
 * Follows the news: what a board shows is fetched anew as data, of which the server makes one for all that look in the
 * same seconds, and not as a page, which it would have to make for each.
 */
export function FollowedBoard({
  made,
  address,
  children,
}: {
  /** As the page was made. */
  made: BoardView;
  /** Of this board. */
  address: string;
  children: ReactNode;
}) {
  const router = useRouter();
  const [looked, setLooked] = useState({ made, view: made });

  useEffect(() => {
    const leaving = new AbortController();
    const stop = boardLooks({
      line: lineOfThisTab(),
      since: made.since,
      ask: (after) => boardNow(address, { after, signal: leaving.signal }),
      show: (view) => {
        if (view.frame === made.frame) setLooked({ made, view });
        else router.refresh();
      },
    });
    return () => {
      leaving.abort();
      stop();
    };
  }, [made, address, router]);

  return <Shown value={looked.made === made ? looked.view : made}>{children}</Shown>;
}

/** Null where the server has none: what it says of that, the line of this tab hears as well. */
async function boardNow(
  address: string,
  { after, signal }: { after: number; signal: AbortSignal },
): Promise<BoardView | null> {
  const asked = new URLSearchParams(address.split("?")[1]);
  asked.set("after", String(after));
  const answer = await fetch(`/api/board?${asked}`, { signal, cache: "no-store" });
  return answer.ok ? ((await answer.json()) as BoardView) : null;
}

export function BoardFacts() {
  const view = use(Shown);
  return (
    <>
      <span>{view?.features}</span>
      <span>{view?.latest}</span>
    </>
  );
}

export function BoardActions({ filter, words }: { filter: BoardFilter; words: FilterWords }) {
  const view = use(Shown);
  return view && <BoardFilterForm choices={view.choices} filter={filter} words={words} />;
}

/** The three bands of the board, in the order in which a shift lead reads them. */
export function Bands({ words }: { words: BandWords }) {
  const view = use(Shown);
  if (view === null) return null;
  return (
    <>
      <BandSection band="act" view={view.act} head={words.act} words={words.row} />
      <BandSection band="watch" view={view.watch} head={words.watch} words={words.row} />
      <QuietSection view={view.quiet} title={words.quiet.title} heads={words.quiet.heads} />
    </>
  );
}
