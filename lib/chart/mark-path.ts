/**
 * Outlines of the marks on charts, as SVG paths about a place. `r` is half the height of a disc; the others
 * are sized to look equally heavy.
 *
 * The diamond is kept for points beyond a limit, on every page. The other shapes tell sources apart, so
 * that none is told by its colour alone.
 */

export const SOURCE_MARKS = ["disc", "square", "up", "down", "plus", "cross", "bar"] as const;
export type SourceMark = (typeof SOURCE_MARKS)[number];
export type Mark = SourceMark | "diamond";

export function markPath(mark: Mark, x: number, y: number, r: number): string {
  switch (mark) {
    case "disc":
      return `M${at(x - r)} ${at(y)}a${at(r)} ${at(r)} 0 1 0 ${at(2 * r)} 0a${at(r)} ${at(r)} 0 1 0 ${at(-2 * r)} 0Z`;
    case "square":
      return corners(x, y, 0.9 * r, [-1, -1, 1, -1, 1, 1, -1, 1]);
    case "up":
      return corners(x, y, 1.15 * r, [0, -1, 1, 0.8, -1, 0.8]);
    case "down":
      return corners(x, y, 1.15 * r, [0, 1, 1, -0.8, -1, -0.8]);
    case "diamond":
      return corners(x, y, 1.45 * r, [0, -1, 1, 0, 0, 1, -1, 0]);
    case "plus":
      return corners(x, y, 1.2 * r, PLUS);
    case "cross":
      return corners(x, y, 1.2 * r, turned(PLUS));
    case "bar":
      return corners(x, y, 1.2 * r, [-1, -0.4, 1, -0.4, 1, 0.4, -1, 0.4]);
  }
}

const T = 0.35;
const PLUS = [-T, -1, T, -1, T, -T, 1, -T, 1, T, T, T, T, 1, -T, 1, -T, T, -1, T, -1, -T, -T, -T];

/** By 45 degrees. */
function turned(points: readonly number[]): number[] {
  const half = Math.SQRT1_2;
  const result: number[] = [];
  for (let i = 0; i < points.length; i += 2) {
    result.push(half * (points[i]! - points[i + 1]!), half * (points[i]! + points[i + 1]!));
  }
  return result;
}

function corners(x: number, y: number, r: number, points: readonly number[]): string {
  let path = "";
  for (let i = 0; i < points.length; i += 2) {
    path += `${i === 0 ? "M" : "L"}${at(x + r * points[i]!)} ${at(y + r * points[i + 1]!)}`;
  }
  return `${path}Z`;
}

/** Hundredths of a pixel are finer than any screen. */
export function at(value: number): number {
  return Math.round(100 * value) / 100;
}
