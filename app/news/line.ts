import type { NewsItem } from "../../db/queries/news";

/*
 * A page's line to the server: one stream of news for everything on the page, opened again when it breaks, with
 * the id of the last news heard, so that nothing is missed.
 *
 * A browser keeps at most six connections to one host over HTTP/1.1, and a seventh tab with a stream of its
 * own would hang all of them. So a tab that nobody has looked at for a while lets its stream go, and takes it
 * up where it was as soon as somebody looks.
 */

/** open: news arrive · gone: the connection broke, and is tried again · asleep: nobody looks at this tab. */
export type LineState =
  | { is: "opening" | "open" | "asleep" | "signed-out"; since: number }
  | { is: "gone"; since: number };

/** What a listener hears; `gap` says that more happened than can be told, so that it should look for itself. */
export type Heard = { gap: true } | { gap: false; item: NewsItem };

/** The server says something at least every 15 seconds. */
const SILENCE_MS = 40_000;
const ASLEEP_AFTER_MS = 60_000;
const RETRY_MS = [1000, 2000, 5000, 10_000];
/** Kept for parts of a page that come late; they look for themselves when this is not enough. */
const KEPT = 500;

export type NewsLine = {
  /** Opens the stream after the news with this id, unless it is open. */
  begin(after: number): void;
  /** Calls back for all news after the one with this id, also for what was heard before. Returns how to stop. */
  listen(after: number, hear: (heard: Heard) => void): () => void;
  state(): LineState;
  /** Id of the latest news heard. */
  latest(): number;
  /** Calls back when the state has changed. */
  watch(changed: () => void): () => void;
  /** Keeps the stream although nobody looks at the tab, as for a sound. Returns how to stop. */
  stayAwake(): () => void;
  /** Somebody looks at the tab, or no longer does; the network is back. */
  seen(visible: boolean): void;
  retryNow(): void;
};

/** What the line needs of the browser, so that it can be tried without one. */
export type Surroundings = {
  /** Of the stream. */
  address: string;
  open(url: string): { addEventListener(name: string, hear: (event: Event) => void): void; close(): void };
  /** The status that the address answers with; 0 when nothing answers. */
  statusOf(url: string): Promise<number>;
  now(): number;
};

export function newsLine({ address: stream, open, statusOf, now }: Surroundings): NewsLine {
  const listeners = new Set<(heard: Heard) => void>();
  const watchers = new Set<() => void>();
  const kept: NewsItem[] = [];
  /** Everything after the news with this id is in `kept` or still to come. */
  let keptSince = 0;
  let last: number | null = null;
  let state: LineState = { is: "opening", since: now() };
  let source: ReturnType<Surroundings["open"]> | null = null;
  let silence: ReturnType<typeof setTimeout> | undefined;
  let retry: ReturnType<typeof setTimeout> | undefined;
  let sleep: ReturnType<typeof setTimeout> | undefined;
  let failures = 0;
  let awake = 0;
  let visible = true;

  function become(is: LineState["is"]): void {
    if (state.is === is) return;
    state = { is, since: now() };
    for (const changed of watchers) changed();
  }

  const address = () => `${stream}?after=${last ?? 0}&together=1`;

  function connect(): void {
    drop();
    const opened = open(address());
    source = opened;
    const isCurrent = () => source === opened;
    opened.addEventListener("here", () => isCurrent() && heardSomething());
    opened.addEventListener("beat", () => isCurrent() && heardSomething());
    opened.addEventListener("gap", (event) => {
      if (!isCurrent()) return;
      heardSomething();
      last = keptSince = idOf(event) ?? last ?? 0;
      kept.length = 0;
      for (const hear of [...listeners]) hear({ gap: true });
    });
    opened.addEventListener("message", (event) => {
      if (!isCurrent()) return;
      heardSomething();
      take(JSON.parse((event as MessageEvent<string>).data) as NewsItem);
    });
    opened.addEventListener("signed-out", () => isCurrent() && end("signed-out"));
    opened.addEventListener("error", () => isCurrent() && broken());
    wait();
  }

  function take(item: NewsItem): void {
    if (last !== null && item.id <= last) return;
    last = item.id;
    kept.push(item);
    if (kept.length > KEPT) keptSince = kept.shift()?.id ?? keptSince;
    for (const hear of [...listeners]) hear({ gap: false, item });
  }

  function heardSomething(): void {
    failures = 0;
    become("open");
    wait();
  }

  /** A cable that was pulled says nothing at all. */
  function wait(): void {
    clearTimeout(silence);
    silence = setTimeout(broken, SILENCE_MS);
  }

  function broken(): void {
    drop();
    if (state.is !== "gone") become("gone");
    const after = RETRY_MS[Math.min(failures, RETRY_MS.length - 1)];
    failures++;
    clearTimeout(retry);
    retry = setTimeout(() => void again(), after);
  }

  /** A stream does not tell why it was refused: when it was refused twice, the address is asked for its status. */
  async function again(): Promise<void> {
    if (failures > 1 && (await statusOf(address())) === 401) end("signed-out");
    else if (state.is === "gone") connect();
  }

  function end(is: "signed-out" | "asleep"): void {
    drop();
    become(is);
  }

  function drop(): void {
    clearTimeout(silence);
    clearTimeout(retry);
    source?.close();
    source = null;
  }

  return {
    begin(after) {
      if (last !== null) return;
      last = keptSince = after;
      connect();
    },
    listen(after, hear) {
      if (after < keptSince) hear({ gap: true });
      else for (const item of kept) if (item.id > after) hear({ gap: false, item });
      listeners.add(hear);
      return () => listeners.delete(hear);
    },
    state: () => state,
    latest: () => last ?? 0,
    watch(changed) {
      watchers.add(changed);
      return () => watchers.delete(changed);
    },
    stayAwake() {
      awake++;
      return () => {
        awake--;
      };
    },
    seen(isVisible) {
      visible = isVisible;
      clearTimeout(sleep);
      if (visible && state.is === "asleep") connect();
      else if (!visible)
        sleep = setTimeout(() => {
          if (!visible && awake === 0 && state.is === "open") end("asleep");
        }, ASLEEP_AFTER_MS);
    },
    retryNow() {
      if (state.is === "gone") connect();
    },
  };
}

function idOf(event: Event): number | null {
  const id = Number((event as MessageEvent).lastEventId);
  return Number.isInteger(id) && id > 0 ? id : null;
}
