/** Several news that come together are shown together. */
const GATHER_MS = 300;
const AGAIN_MS = 500;
/** Fifty pages hear of an alarm in the same moment; they come to look within so long of each other. */
const SPREAD_MS = 500;
/** And go apart again by up to this share of their calm time. */
const SPREAD = 0.25;

/**
 * When to show a page anew: soon after news that somebody waits for, at most every `calmMs` for those that come
 * all day, never twice at a time, and not while the server is away, for then the browser would put its own
 * page of errors in the place of this one.
 */
export function refreshSchedule({
  calmMs,
  look,
  mayLook,
  random = Math.random,
}: {
  calmMs: number;
  look: () => void;
  mayLook: () => boolean;
  /** From 0 to 1. */
  random?: () => number;
}): { want(isCalm: boolean): void; done(): void; stop(): void } {
  let due: number | null = null;
  let lookedAt = Date.now();
  let isLooking = false;
  let timer: ReturnType<typeof setTimeout> | undefined;

  function arm(): void {
    clearTimeout(timer);
    if (isLooking || due === null) return;
    timer = setTimeout(fire, Math.max(0, due - Date.now()));
  }

  function fire(): void {
    if (!mayLook()) {
      timer = setTimeout(fire, AGAIN_MS);
      return;
    }
    due = null;
    isLooking = true;
    lookedAt = Date.now();
    look();
  }

  return {
    want(isCalm) {
      const gathered = Date.now() + GATHER_MS;
      const wanted = isCalm
        ? Math.max(gathered, lookedAt + calmMs * (1 + SPREAD * random()))
        : gathered + SPREAD_MS * random();
      if (due !== null && due <= wanted) return;
      due = wanted;
      arm();
    },
    done() {
      isLooking = false;
      arm();
    },
    stop() {
      clearTimeout(timer);
    },
  };
}
