import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  centredAt,
  movedBy,
  windowAddress,
  windowFrom,
  windowSteps,
  withFirst,
  withLast,
} from "../../../lib/chart/overview-window";
import { MOST_SHOWN, shownWindow } from "../../../lib/chart/shown-window";

const history = { count: 1000 };

describe("by hand", () => {
  test("an edge moves alone, pushes the other at its turn, and pulls it at 500", () => {
    expect(withFirst({ from: 100, to: 219 }, 150, history)).toEqual({ from: 150, to: 219 });
    expect(withFirst({ from: 100, to: 219 }, 300, history)).toEqual({ from: 300, to: 300 });
    expect(withFirst({ from: 700, to: 819 }, 10, history)).toEqual({ from: 10, to: 509 });
    expect(withLast({ from: 100, to: 219 }, 50, history)).toEqual({ from: 50, to: 50 });
    expect(withLast({ from: 100, to: 219 }, 900, history)).toEqual({ from: 401, to: 900 });
  });

  test("the whole window stops at the ends", () => {
    expect(movedBy({ from: 100, to: 219 }, -200, history)).toEqual({ from: 0, to: 119 });
    expect(movedBy({ from: 100, to: 219 }, 5000, history)).toEqual({ from: 880, to: 999 });
    expect(centredAt({ from: 0, to: 100 }, 500, history)).toEqual({ from: 450, to: 550 });
  });

  test("steps: neighbours adjoin, none at an end", () => {
    expect(windowSteps({ from: 880, to: 999 }, history)).toEqual({
      earlier: { from: 760, to: 879 },
      later: null,
      latest: { from: 880, to: 999 },
      widest: { from: 500, to: 999 },
    });
    expect(windowSteps({ from: 0, to: 119 }, { count: 300 })).toMatchObject({
      earlier: null,
      later: { from: 120, to: 239 },
      widest: { from: 0, to: 299 },
    });
  });

  test("what was asked for is cut to the history; behind its end comes its end, as wide", () => {
    expect(shownWindow(1000, { from: 900, to: 1200 })).toEqual({ from: 900, to: 999 });
    expect(shownWindow(1000, { from: 1200, to: 900 })).toEqual({ from: 900, to: 999 });
    expect(shownWindow(1000, { from: 1100, to: 1219 })).toEqual({ from: 880, to: 999 });
    expect(shownWindow(50, { from: 1100, to: 1219 })).toEqual({ from: 0, to: 49 });
    expect(shownWindow(1000, { from: 1100, to: 999_999_999 })).toEqual({ from: 500, to: 999 });
    expect(shownWindow(0, { from: 5, to: 9 })).toEqual({ from: 0, to: -1 });
  });

  test("the address keeps what else it asks for", () => {
    expect(windowAddress("/features/3", { from: 0, to: 9 })).toBe("/features/3?w=0-9");
    expect(windowAddress("/features/3?colour=tool", { from: 0, to: 9 })).toBe(
      "/features/3?colour=tool&w=0-9",
    );
    expect(windowAddress("/features/3?w=0-9&colour=tool", { from: 4, to: 8 })).toBe(
      "/features/3?colour=tool&w=4-8",
    );
    expect(windowAddress("/features/3?colour=tool&w=0-9", null)).toBe("/features/3?colour=tool");
    expect(windowAddress("/features/3?w=0-9", null)).toBe("/features/3");
  });

  test("and what it says of the window is read again; anything else is none", () => {
    expect(windowFrom("4-8")).toEqual({ from: 4, to: 8 });
    for (const text of [null, undefined, "", "4", "-4-8", "4-8x", "4.5-8"])
      expect(windowFrom(text)).toBeNull();
  });
});

test("law: every window lies inside the history and holds 1 to 500 subgroups", () => {
  const given = fc
    .record({
      count: fc.integer({ min: 1, max: 3000 }),
      a: fc.nat(2999),
      width: fc.nat(MOST_SHOWN - 1),
      by: fc.integer({ min: -4000, max: 4000 }),
    })
    .map(({ count, a, width, by }) => {
      const from = Math.min(a, count - 1);
      return { count, by, window: { from, to: Math.min(count - 1, from + width) } };
    });
  fc.assert(
    fc.property(given, ({ count, by, window }) => {
      const { earlier, later, latest, widest } = windowSteps(window, { count });
      const moved = [
        movedBy(window, by, { count }),
        centredAt(window, by, { count }),
        withFirst(window, by, { count }),
        withLast(window, by, { count }),
        latest,
        widest,
        ...(earlier ? [earlier] : []),
        ...(later ? [later] : []),
      ];
      for (const { from, to } of moved) {
        expect(from).toBeGreaterThanOrEqual(0);
        expect(to).toBeGreaterThanOrEqual(from);
        expect(to).toBeLessThan(count);
        expect(to - from).toBeLessThan(MOST_SHOWN);
      }
    }),
  );
});
