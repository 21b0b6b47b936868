// @ts-check

/** A reason why the program cannot go on, written for the person at the terminal. No stack is shown for it. */
export class CannotGoOn extends Error {
  /** @override */
  name = "CannotGoOn";
}
