import type { NewsItem } from "../../db/queries/news";

const AGAIN_MS = 200;

/** One open page, as far as the server sees it: a stream that is taken up after the last news when it breaks. */
export type Listener = {
  /** Every news heard, in the order in which it was heard. */
  readonly heard: readonly NewsItem[];
  /** From the writing of a news to its arrival here, in ms; only of news heard while the stream was open. */
  readonly delays: readonly number[];
  readonly reconnected: number;
  last(): number;
  stop(): void;
};

export function listener(
  address: string,
  {
    cookie,
    after,
    together = false,
    hear,
  }: { cookie: string; after: number; together?: boolean; hear?: (item: NewsItem) => void },
): Listener {
  const heard: NewsItem[] = [];
  const delays: number[] = [];
  const stopping = new AbortController();
  let last = after;
  let reconnected = 0;

  function take(event: string, openedAt: number): void {
    const data = /^data: (.+)$/m.exec(event)?.[1];
    if (/^event: gap$/m.test(event)) throw new Error("A stream was told of a gap.");
    if (/^event: /m.test(event) || data === undefined) return;
    const item = JSON.parse(data) as NewsItem;
    heard.push(item);
    if (item.at > openedAt) delays.push(Date.now() - item.at);
    last = item.id;
    hear?.(item);
  }

  async function listen(): Promise<void> {
    const answer = await fetch(`${address}/api/news${together ? "?together=1" : ""}`, {
      headers: { cookie, "last-event-id": String(last) },
      signal: stopping.signal,
    });
    if (answer.status !== 200 || !answer.body)
      throw new Error(`The stream was answered with ${answer.status}.`);
    const openedAt = Date.now();
    const decoder = new TextDecoder();
    let rest = "";
    for await (const chunk of answer.body as unknown as AsyncIterable<Uint8Array>) {
      rest += decoder.decode(chunk, { stream: true });
      const events = rest.split("\n\n");
      rest = events.pop() ?? "";
      for (const event of events) take(event, openedAt);
    }
  }

  async function goOn(): Promise<void> {
    while (!stopping.signal.aborted) {
      await listen().catch(() => undefined);
      if (stopping.signal.aborted) return;
      reconnected++;
      await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
    }
  }

  void goOn();
  return {
    heard,
    delays,
    get reconnected() {
      return reconnected;
    },
    last: () => last,
    stop: () => stopping.abort(),
  };
}
