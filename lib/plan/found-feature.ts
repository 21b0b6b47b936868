import type { FeatureKind } from "./feature-plan";

/** Whether every word is found in what a feature or its part carries, whatever its case. */
export function isFound(
  {
    name,
    kind,
    part,
  }: { name: string; kind: FeatureKind; part: { number: string; name: string; line: string } },
  find: string,
  kinds: Readonly<Record<FeatureKind, string>>,
): boolean {
  const text = `${name} ${kind} ${kinds[kind]} ${part.number} ${part.name} ${part.line}`.toLowerCase();
  return find
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
