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
