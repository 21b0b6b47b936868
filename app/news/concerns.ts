import type { News } from "../../db/queries/news";

/** Whether news are of a kind that a page shows and, where it shows one feature only, of that feature. */
export function concerns(
  item: News,
  { kinds, featureId }: { kinds: readonly string[]; featureId?: number | undefined },
): boolean {
  if (!kinds.includes(item.kind)) return false;
  if (featureId === undefined || item.kind === "drift") return true;
  if (item.kind === "intake") return item.featureIds === null || item.featureIds.includes(featureId);
  return item.featureId === featureId;
}

/**
 * Whether nobody in front of a page with news of these kinds waits for this one: measurements, and further signals of an
 * alarm that is known, for each may come many times a second; and where alarms are shown, which come first, a new scan of
 * the sources, which on a busy line follows every few pieces.
 */
export function isCalm(item: News, kinds: readonly string[]): boolean {
  if (item.kind === "drift") return kinds.includes("alarm");
  return item.kind === "intake" || (item.kind === "alarm" && item.what === "goes on");
}
