/*
 * Work that a person waits for on a page: how far it has come, and that it may be given up. The page gives it a name of
 * its own ("ticket") when it asks for the work, and asks for it under that name meanwhile.
 *
 * Held outside the module: the server's pages and its endpoints may each have a copy of it.
 */

export type Share = { done: number; total: number };

type Awaited = { accountId: number; share: Share; cancel: () => void };

export type Ticket = { name: string; accountId: number };

const holder = globalThis as { steadyrestAwaited?: Map<string, Awaited> };

function all(): Map<string, Awaited> {
  holder.steadyrestAwaited ??= new Map();
  return holder.steadyrestAwaited;
}

/** Notes that work has begun. Call what comes back as it goes on, and `end` when it is over. */
export function awaitedAs({ name, accountId }: Ticket, cancel: () => void) {
  const awaited: Awaited = { accountId, share: { done: 0, total: 0 }, cancel };
  all().set(name, awaited);
  return {
    goesOn(share: Share): void {
      awaited.share = share;
    },
    end(): void {
      if (all().get(name) === awaited) all().delete(name);
    },
  };
}

/** How far somebody's own work has come; null when there is none of that name. */
export function shareOf({ name, accountId }: Ticket): Share | null {
  const awaited = all().get(name);
  return awaited?.accountId === accountId ? awaited.share : null;
}

/** Asks somebody's own work to stop, which it does at the next feature; false when there is none of that name. */
export function giveUp({ name, accountId }: Ticket): boolean {
  const awaited = all().get(name);
  if (awaited?.accountId !== accountId) return false;
  awaited.cancel();
  return true;
}
