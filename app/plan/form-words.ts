import type { Words } from "../../lib/words/words";

/** What the form of a feature says in the browser. */
export type FormWords = ReturnType<typeof formWords>;

export function formWords({ form, cost }: Words["plan"], { kinds, counts, features }: Words["charts"]) {
  return { ...form, cost, charts: { kinds, counts, features } };
}
