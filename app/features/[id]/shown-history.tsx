"use client";

import { useRouter } from "next/navigation";
import {
  createContext,
  type ReactNode,
  useCallback,
  useContext,
  useEffect,
  useLayoutEffect,
  useMemo,
  useRef,
  useState,
  useSyncExternalStore,
  useTransition,
} from "react";
import { useCommonWords } from "#common-words";
import {
  type ChartFacts,
  type ChartStretch,
  type ChartView,
  calmDomains,
  viewOf,
} from "../../../lib/chart/chart-view";
import { isSameWindow, windowAddress, windowFrom } from "../../../lib/chart/overview-window";
import { type ReadingColumns, readingsOf, type ToldReading } from "../../../lib/chart/point-columns";
import { type ShownWindow, shownWindow } from "../../../lib/chart/shown-window";
import type { Words } from "../../../lib/words/words";
import { fetchReadings, fetchStretch } from "./fetch-stretch";
import { type Moving, movingWindow } from "./moving-window";

export type StepWords = Words["features"]["steps"];

/** A hand that goes on from one window to the next chooses no point in between. */
const CHOOSE_MS = 150;
/** How long a hand must rest before the address says where it is, or the server draws anew. */
const REST_MS = 350;

type Step = {
  /** What the address is to name; null for the latest, which the address need not name. */
  asked: ShownWindow | null;
  /** The hand goes on. */
  isMoving?: boolean;
  /** The way back leads to what was shown before. */
  isEntry?: boolean;
};

type Readings = {
  columns: ReadingColumns | null;
  /** Why those of what is shown could not be fetched. */
  fault: string | null;
};

type Steps = {
  count: number;
  address: string;
  words: StepWords;
  go(window: ShownWindow, step: Step): void;
  warm(): void;
  again(): void;
};

const MovingContext = createContext<Moving | null>(null);
const StepsContext = createContext<Steps | null>(null);
const FetchingContext = createContext(false);
const ViewContext = createContext<ChartView | null>(null);
const ReadingsContext = createContext<Readings>({ columns: null, fault: null });

/**
 * Where in its history a feature's page is. Charts, strip, links and table below it follow; the page itself is not made
 * anew for a step. Without a `stretch` the server draws the points, and the page is made anew for each.
 */
export function ShownHistory({
  facts,
  stretch,
  readings,
  window,
  asked,
  address,
  words,
  children,
}: {
  facts: ChartFacts;
  stretch: ChartStretch | null;
  /** Of the window. */
  readings: ReadingColumns | null;
  window: ShownWindow;
  asked: ShownWindow | null;
  /** The page with its other query, without a window. */
  address: string;
  words: StepWords;
  children: ReactNode;
}) {
  const router = useRouter();
  const { rules } = useCommonWords();
  const [isLeaving, startLeaving] = useTransition();
  const { featureId, count } = facts;
  const made = useMemo(() => ({ stretch, window, asked, count }), [stretch, window, asked, count]);
  const [store] = useState(() => movingWindow(made, (range) => fetchStretch(featureId, { range, words })));
  const moving = useSyncExternalStore(store.subscribe, store.state, store.state);
  const latest = useRef(made);
  /** What the address without a window leads to, as the page was made with it last. */
  const unasked = useRef(asked === null ? window : null);
  const rest = useRef<{ timer?: ReturnType<typeof setTimeout>; isEntry: boolean }>({ isEntry: false });
  const isDrawnHere = stretch !== null;

  useLayoutEffect(() => {
    if (latest.current === made) return;
    latest.current = made;
    if (made.asked === null) unasked.current = made.window;
    store.adopt(made);
  }, [store, made]);

  useEffect(() => () => clearTimeout(rest.current.timer), []);

  // The way back over steps that the server knows nothing of.
  useEffect(() => {
    if (!isDrawnHere) return;
    const { pathname } = location;
    function back(): void {
      if (location.pathname !== pathname) return;
      const query = new URLSearchParams(location.search);
      const asked = windowFrom(query.get("w"));
      if (isSameWindow(asked, store.state().asked)) return;
      clearTimeout(rest.current.timer);
      // An address that names a moment leads to that moment, which the server found; any other to the latest.
      const moment = asked === null && query.has("from") ? unasked.current : null;
      store.show(moment ?? shownWindow(count, asked), { asked });
    }
    addEventListener("popstate", back);
    return () => removeEventListener("popstate", back);
  }, [store, count, isDrawnHere]);

  const go = useCallback(
    (next: ShownWindow, { asked, isMoving = false, isEntry = false }: Step) => {
      store.show(next, { asked, isMoving });
      clearTimeout(rest.current.timer);
      rest.current.isEntry ||= isEntry;
      const settle = () => {
        const { wanted, asked, isMoving } = store.state();
        if (isMoving) store.show(wanted, { asked });
        const href = windowAddress(address, asked);
        const { isEntry } = rest.current;
        rest.current.isEntry = false;
        // The framework hears of both, and asks the server for this address when the page is made anew.
        if (isDrawnHere) history[isEntry ? "pushState" : "replaceState"](null, "", href);
        else startLeaving(() => router[isEntry ? "push" : "replace"](href, { scroll: false }));
      };
      // A press where the server draws need not wait for the next one.
      if (isDrawnHere || isMoving) rest.current.timer = setTimeout(settle, REST_MS);
      else settle();
    },
    [store, address, isDrawnHere, router],
  );

  const isFetching = isLeaving || !isSameWindow(moving.wanted, moving.shown);
  const control = useMemo(
    () => ({ count, address, words, go, warm: store.warm, again: store.again }),
    [count, address, words, go, store],
  );
  const { stretch: held, shown } = moving;
  const drawn = useMemo(
    () => (held === null ? null : viewOf(facts, held, { window: shown, words: rules })),
    [facts, held, shown, rules],
  );
  const view = useCalmly(drawn, moving.isMoving);

  const known = useReadings(readings, { shown, isMoving: moving.isMoving, featureId, words });

  return (
    <StepsContext value={control}>
      <FetchingContext value={isFetching}>
        <MovingContext value={moving}>
          <ViewContext value={view}>
            <ReadingsContext value={known}>{children}</ReadingsContext>
          </ViewContext>
        </MovingContext>
      </FetchingContext>
    </StepsContext>
  );
}

/**
 * The view with rows for brackets and with axes that do not jump. A chart that grew and shrank with each step would move
 * the strip under the hand that drags it and the links under the pointer: so it never shrinks while it is looked at,
 * and while a hand is on it it stays as it is.
 */
function useCalmly(view: ChartView | null, isMoving: boolean): ChartView | null {
  const [most, setMost] = useState(view?.lanes ?? { location: 0, spread: 0 });
  const [kept, setKept] = useState(view?.domains ?? null);
  if (view && !isMoving) {
    const location = Math.max(most.location, view.lanes.location);
    const spread = Math.max(most.spread, view.lanes.spread);
    if (location > most.location || spread > most.spread) setMost({ location, spread });
  }
  const domains = view && (kept === null ? view.domains : calmDomains(kept, view.domains));
  if (domains !== kept) setKept(domains);
  return useMemo(() => view && domains && { ...view, lanes: most, domains }, [view, most, domains]);
}

/** The readings of what is shown: with the page, and then of each window in which the hand rests. */
function useReadings(
  given: ReadingColumns | null,
  {
    shown,
    isMoving,
    featureId,
    words,
  }: { shown: ShownWindow; isMoving: boolean; featureId: number; words: StepWords },
): Readings {
  const [known, setKnown] = useState<Readings & { given: typeof given }>({
    given,
    columns: given,
    fault: null,
  });
  if (known.given !== given) setKnown({ given, columns: given, fault: null });
  const { columns } = known;
  const isKnown =
    columns === null || (columns.from <= shown.from && shown.to < columns.from + columns.counts.length);
  useEffect(() => {
    if (isKnown || isMoving) return;
    let isWanted = true;
    const timer = setTimeout(async () => {
      const found = await fetchReadings(featureId, { range: shown, words }).then(
        (columns) => ({ columns, fault: null }),
        (error: Error) => ({ fault: error.message }),
      );
      if (isWanted) setKnown((before) => ({ ...before, ...found }));
    }, CHOOSE_MS);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [isKnown, isMoving, shown, featureId, words]);
  return known;
}

/** The readings of a subgroup; null while they are not there, and why when they cannot be had. */
export function useReadingsOf(number: number): { readings: ToldReading[] | null; fault: string | null } {
  const { columns, fault } = useContext(ReadingsContext);
  return useMemo(() => {
    const readings = columns && readingsOf(columns, number);
    return { readings, fault: readings ? null : fault };
  }, [columns, fault, number]);
}

/** What the chart shows now; null where the server draws it. */
export function useChartView(): ChartView | null {
  return useContext(ViewContext);
}

/** What moves the window. Only below a `ShownHistory`. */
export function useSteps(): Steps {
  const control = useContext(StepsContext);
  if (!control) throw new Error("useSteps stands outside of a ShownHistory.");
  return control;
}

/** Where the window is and what moves it. Only below a `ShownHistory`. */
export function useShownHistory(): Steps & Moving & { isFetching: boolean } {
  const control = useSteps();
  const isFetching = useContext(FetchingContext);
  const moving = useContext(MovingContext);
  if (!moving) throw new Error("useShownHistory stands outside of a ShownHistory.");
  return { ...control, ...moving, isFetching };
}

/** Addresses of this page with the window that is shown now; elsewhere they stay as they are. */
export function useHereAddress(): (address: string) => string {
  const moving = useContext(MovingContext);
  return (address) => (moving ? windowAddress(address, moving.asked) : address);
}
