import { type Connection, type Database, write } from "../connection";

/*
 * Posts that wait at the same moment are stored in one transaction, in the order in which their pieces were measured.
 *
 * A line with several machines posts at once, and which request is read first is chance: of sixteen callers one post in
 * eight came behind a later one, and what comes late is judged anew, at fifty times the cost. So requests gather while
 * the server reads what has arrived, and while another change holds the lock. They also share a commit and its wait for
 * the disk; each is answered after it, and refused or stored by itself.
 */

/** As many as share a transaction; a whole one takes some 100 ms. */
const MOST_TOGETHER = 32;

type Post<T> = {
  /** When the first of its measurements was taken. */
  takenAt: number;
  /** Stores it. `isAgain`: it did so before, in a transaction that was taken back. */
  store: (connection: Connection, isAgain: boolean) => T;
};
type Waiting = Post<unknown> & { resolve: (stored: never) => void; reject: (error: unknown) => void };

const queues = new WeakMap<Database, Waiting[]>();

/** What `store` gives, once it is on the disk. */
export function inTurn<T>(database: Database, post: Post<T>): Promise<T> {
  const queue = queues.get(database) ?? [];
  queues.set(database, queue);
  return new Promise<T>((resolve, reject) => {
    queue.push({ ...post, resolve, reject });
    // After whatever else the thread has received by now has been read.
    if (queue.length === 1) setImmediate(() => void storeWaiting(database, queue));
  });
}

async function storeWaiting(database: Database, queue: Waiting[]): Promise<void> {
  let together: Waiting[] = [];
  try {
    const stored = await write(database, (connection) => {
      together = queue.slice(0, MOST_TOGETHER).sort((a, b) => a.takenAt - b.takenAt);
      return together.map((post) => post.store(connection, false));
    });
    for (const [i, post] of together.entries()) post.resolve(stored[i] as never);
  } catch (error) {
    const neverFree = together.length === 0;
    if (neverFree) together = queue.slice();
    // Where one of several cannot be stored, the others can, each for itself.
    if (neverFree || together.length === 1) for (const post of together) post.reject(error);
    else for (const post of together) await storeAlone(database, post);
  }
  const done = new Set(together);
  const left = queue.filter((post) => !done.has(post));
  queue.splice(0, queue.length, ...left);
  if (queue.length > 0) setImmediate(() => void storeWaiting(database, queue));
}

async function storeAlone(database: Database, post: Waiting): Promise<void> {
  await write(database, (connection) => post.store(connection, true)).then(
    (stored) => post.resolve(stored as never),
    post.reject,
  );
}
