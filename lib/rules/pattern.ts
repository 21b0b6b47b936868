import { InvalidInput, requireCount } from "../checks";

/**
 * What a run rule looks for among the latest points, as plain data.
 *
 * Points are z = (point − centre)/its sigma. Lengths count points that are present: excluded and
 * missing ones are skipped as if they had never been.
 *
 * - zone: this point and at least `count` of the last `of` (this one included) lie in the zone. "beyond
 *   one side": z > distance, or z < −distance, all on the same side. "beyond any side": abs z > distance.
 *   "within": abs z < distance. With count = of it is a run.
 * - trend: `of` points in a row, each above the one before, or each below.
 * - alternation: `of` points in a row whose steps go up and down by turns.
 */
export type RulePattern =
  | { kind: "zone"; where: ZonePlace; distance: number; count: number; of: number }
  | { kind: "trend"; of: number }
  | { kind: "alternation"; of: number };

export type ZonePlace = "beyond one side" | "beyond any side" | "within";

/** "either" for patterns that have no side. */
export type Direction = "up" | "down" | "either";

/** The points of a window are the bits of one 32-bit integer, and a shop's rule never needs more. */
export const LONGEST_PATTERN = 30;

/** @throws InvalidInput naming the field that does not fit */
export function requirePattern(where: string, pattern: RulePattern): void {
  switch (pattern.kind) {
    case "trend":
    case "alternation":
      requireCount(where, "pattern.of", pattern.of, 3, LONGEST_PATTERN);
      return;
    case "zone":
      requireZone(where, pattern);
      return;
    default:
      throw new InvalidInput(where, "pattern.kind", (pattern as { kind: unknown }).kind, KINDS);
  }
}

const KINDS = "zone, trend or alternation";
const PLACES: readonly string[] = ["beyond one side", "beyond any side", "within"] satisfies ZonePlace[];

function requireZone(rule: string, { where, distance, count, of }: RulePattern & { kind: "zone" }): void {
  requireCount(rule, "pattern.of", of, 1, LONGEST_PATTERN);
  requireCount(rule, "pattern.count", count, 1, of);
  if (!PLACES.includes(where)) throw new InvalidInput(rule, "pattern.where", where, PLACES.join(", "));
  const holdsPoints = distance > 0 || (distance === 0 && where !== "within");
  if (!Number.isFinite(distance) || !holdsPoints) {
    throw new InvalidInput(
      rule,
      "pattern.distance",
      distance,
      "a number of sigma, 0 or more; above 0 within",
    );
  }
}
