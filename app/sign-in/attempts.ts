/**
 * Limits guesses at a password: after some wrong ones, the same login from the same address has to wait, and
 * longer each time. Others who use that login, or that address with another login, are not held up.
 *
 * It is kept in memory: a restart forgets it, and one process serves a plant.
 */
const FREE_TRIES = 5;
const FIRST_WAIT_MS = 30_000;
const LONGEST_WAIT_MS = 15 * 60_000;
/** Bounds the memory that somebody with invented logins could take. */
const MOST_KEPT = 5_000;

type Attempts = { wrong: number; waitUntil: number };

export class SignInAttempts {
  private readonly kept = new Map<string, Attempts>();

  /** Milliseconds to wait before the next try counts; 0 when it may be made now. */
  waitFor({ login, address, now }: { login: string; address: string; now: number }): number {
    const attempts = this.kept.get(keyOf(login, address));
    return Math.max(0, (attempts?.waitUntil ?? 0) - now);
  }

  noteWrong({ login, address, now }: { login: string; address: string; now: number }): void {
    const key = keyOf(login, address);
    const wrong = (this.kept.get(key)?.wrong ?? 0) + 1;
    const beyond = wrong - FREE_TRIES;
    const wait = beyond < 0 ? 0 : Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** beyond);
    // Set anew, so that the order of the map is the order of the latest tries.
    this.kept.delete(key);
    this.kept.set(key, { wrong, waitUntil: now + wait });
    const oldest = this.kept.keys().next().value;
    if (this.kept.size > MOST_KEPT && oldest !== undefined) this.kept.delete(oldest);
  }

  noteRight({ login, address }: { login: string; address: string }): void {
    this.kept.delete(keyOf(login, address));
  }
}

function keyOf(login: string, address: string): string {
  return `${login.trim().toLowerCase()} ${address}`;
}
