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
 * Whether nobody waits for these news: measurements, and further signals of an alarm that is known. Each may come many
 * times a second, and an alarm that goes on is no other alarm.
 */
export function isCalm(item: News): boolean {
  return item.kind === "intake" || (item.kind === "alarm" && item.what === "goes on");
}
