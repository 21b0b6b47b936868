/** What was read, and what was made of it so far. */
export type SharedRead<Read, Made> = { read: Promise<Read>; made: Map<string, Promise<Made>> };

/**
 * Of measurements a board tells within tens of seconds, so fifty boards, each with its own moment to look, can do with
 * what was read a little while ago: reading two thousand features while a line posts takes 25 ms, and placing them 10.
 */
export const SHARED_FOR_MS = 5_000;

/**
 * One reading for all who ask within some seconds. Who knows of a later piece of news than it holds is given another,
 * and so is everybody after: an alarm that fifty boards hear of is read once.
 *
 * @param after the news that what is read must hold
 * @param latest the latest news there are, asked just now
 */
export function sharedReads<Read, Made>(
  read: () => Promise<Read>,
): (asked: { after: number; latest: number }) => SharedRead<Read, Made> {
  let shared: (SharedRead<Read, Made> & { since: number; readAt: number }) | null = null;
  return ({ after, latest }) => {
    const now = Date.now();
    const needed = Math.min(after, latest);
    if (shared && shared.since >= needed && now - shared.readAt < SHARED_FOR_MS) return shared;
    const begun = { since: latest, readAt: now, read: read(), made: new Map<string, Promise<Made>>() };
    shared = begun;
    begun.read.catch(() => {
      if (shared === begun) shared = null;
    });
    return begun;
  };
}

/** What is made once of a reading for all who ask for the same; a failure is found by those who wait, and forgotten. */
export function onceOf<Made>(
  made: Map<string, Promise<Made>>,
  key: string,
  make: () => Promise<Made>,
): Promise<Made> {
  const known = made.get(key);
  if (known) return known;
  const begun = make();
  made.set(key, begun);
  begun.catch(() => made.delete(key));
  return begun;
}
