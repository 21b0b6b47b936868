/** How often each subgroup size occurs, the most frequent first; of equally frequent ones the larger. */
export function sizeTally(sizes: Iterable<number>): { size: number; subgroups: number }[] {
  const tally = new Map<number, number>();
  for (const size of sizes) tally.set(size, (tally.get(size) ?? 0) + 1);
  return [...tally]
    .map(([size, subgroups]) => ({ size, subgroups }))
    .sort((a, b) => b.subgroups - a.subgroups || b.size - a.size);
}

/** The size that most subgroups have; null when there are none. */
export function usualSize(sizes: Iterable<number>): number | null {
  return sizeTally(sizes)[0]?.size ?? null;
}
