import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  evaluateRules,
  type Firing,
  type JudgingState,
  judgePoint,
  startJudging,
  startPhase,
} from "../../../lib/rules/judge";
import { RULE_SETS, RULES, ruleBySlug } from "../../../lib/rules/known-rules";
import { type RunRule, runRule } from "../../../lib/rules/rule";
import runrules from "../../reference/runrules.json";

type Sequence = readonly (number | null)[];

const fired = (slug: string, z: Sequence, phaseStarts?: number[]) =>
  evaluateRules([ruleBySlug(slug)], z, phaseStarts).map(({ at, members, direction }) => ({
    at,
    members,
    direction,
  }));

describe("by hand", () => {
  test("2 of 3 beyond 2 sigma: members are the two beyond, not the one between", () => {
    expect(fired("two-of-three-2s", [2.4, 0.3, 2.1])).toEqual([{ at: 2, members: [0, 2], direction: "up" }]);
  });

  test("six falling points fire once, the seventh again", () => {
    const z = [3, 2.5, 2, 1.5, 1, 0.5, 0];
    expect(fired("six-trend", z)).toEqual([
      { at: 5, members: [0, 1, 2, 3, 4, 5], direction: "down" },
      { at: 6, members: [1, 2, 3, 4, 5, 6], direction: "down" },
    ]);
  });

  test("differences below a billionth of sigma are ties: levels, steps and sides", () => {
    const bit = 5e-10;
    expect(fired("beyond-3s", [3 + bit])).toEqual([]);
    expect(fired("six-trend", [0, 1, 2, 2 + bit, 3, 4])).toEqual([]);
    expect(fired("eight-one-side", [1, 1, 1, bit, 1, 1, 1, 1])).toEqual([]);
    expect(fired("fifteen-within-1s", new Array<number>(15).fill(1 - bit))).toEqual([]);
    expect(fired("eight-outside-1s", new Array<number>(8).fill(1 + bit))).toEqual([]);
  });

  test("a phase begins anew even where its first point is missing", () => {
    const z = [1, 1, 1, 1, null, 1, 1, 1, 1];
    expect(fired("eight-one-side", z)).toHaveLength(1);
    expect(fired("eight-one-side", z, [4])).toEqual([]);
  });

  test("several rules at one point fire in the order of the rules", () => {
    const rules = ["two-of-three-2s", "beyond-3s"].map(ruleBySlug);
    expect(evaluateRules(rules, [2.5, 3.5]).map((firing) => firing.rule)).toEqual([
      "two-of-three-2s",
      "beyond-3s",
    ]);
  });
});

describe(`published rules, firings computed twice: ${runrules.source}`, () => {
  test.each(runrules.cases)("$id: $note", ({ input, expected }) => {
    const missing = new Set<number>(input.excludedIndexes);
    const z = input.standardized.map((value, i) => (missing.has(i) ? null : value));
    const firings = evaluateRules(RULES, z, input.phaseStartIndexes);
    expect(Object.keys(expected).sort()).toEqual(RULES.map((rule) => rule.slug).sort());
    for (const [slug, { firingIndexes, members }] of Object.entries(expected)) {
      const ours = firings.filter((firing) => firing.rule === slug);
      expect({
        slug,
        firingIndexes: ours.map((one) => one.at),
        members: ours.map((one) => one.members),
      }).toEqual({ slug, firingIndexes, members });
    }
  });
});

describe("law", () => {
  /** Runs, trends and far points are rare in pure noise, so walks and plateaus are mixed in. */
  const point = fc.oneof(
    { weight: 6, arbitrary: fc.integer({ min: -40, max: 40 }).map((tenth) => tenth / 10) },
    { weight: 1, arbitrary: fc.constant(null) },
  );
  const walk = fc.array(fc.integer({ min: -3, max: 8 }), { minLength: 1, maxLength: 40 }).map((steps) => {
    let z = -2;
    return steps.map((step) => {
      z += step / 10;
      return Math.round(z * 10) / 10;
    });
  });
  const sequence: fc.Arbitrary<Sequence> = fc
    .array(fc.oneof(fc.array(point, { maxLength: 30 }), walk), { maxLength: 4 })
    .map((parts) => parts.flat());
  const starts = fc.uniqueArray(fc.nat({ max: 80 }), { maxLength: 3 });

  test("point by point, from a state stored in between, gives what the whole series gives", () => {
    fc.assert(
      fc.property(sequence, starts, (z, phaseStarts) => {
        let state = startJudging(RULES);
        const firings: Firing[] = [];
        z.forEach((value, at) => {
          state = JSON.parse(JSON.stringify(state)) as JudgingState;
          if (phaseStarts.includes(at)) startPhase(state);
          firings.push(...judgePoint(RULES, state, value, at));
        });
        expect(firings).toEqual(evaluateRules(RULES, z, phaseStarts));
      }),
    );
  });

  test("missing points are as if they had never been", () => {
    fc.assert(
      fc.property(sequence, (z) => {
        const present = z.flatMap((value, at) => (value === null ? [] : [at]));
        const closedUp = evaluateRules(
          RULES,
          present.map((at) => z[at]!),
        );
        const spread = closedUp.map((firing) => ({
          ...firing,
          at: present[firing.at]!,
          members: firing.members.map((member) => present[member]!),
        }));
        expect(evaluateRules(RULES, z)).toEqual(spread);
      }),
    );
  });

  test("mirrored points fire the same rules the other way", () => {
    const opposite = { up: "down", down: "up", either: "either" } as const;
    fc.assert(
      fc.property(sequence, starts, (z, phaseStarts) => {
        const mirrored = z.map((value) => (value === null ? null : -value));
        expect(evaluateRules(RULES, mirrored, phaseStarts)).toEqual(
          evaluateRules(RULES, z, phaseStarts).map((firing) => ({
            ...firing,
            direction: opposite[firing.direction],
          })),
        );
      }),
    );
  });

  test("a phase start is the same as two series", () => {
    fc.assert(
      fc.property(sequence, sequence, (before, after) => {
        const second = evaluateRules(RULES, after).map((firing) => ({
          ...firing,
          at: firing.at + before.length,
          members: firing.members.map((member) => member + before.length),
        }));
        expect(evaluateRules(RULES, [...before, ...after], [before.length])).toEqual([
          ...evaluateRules(RULES, before),
          ...second,
        ]);
      }),
    );
  });

  test("a zone rule of any shape agrees with a look back over the present points", () => {
    const shape = fc.integer({ min: 1, max: 30 }).chain((of) =>
      fc.record({
        of: fc.constant(of),
        count: fc.integer({ min: 1, max: of }),
        distance: fc.integer({ min: 1, max: 25 }).map((tenth) => tenth / 10),
        where: fc.constantFrom("beyond one side", "beyond any side", "within"),
      }),
    );
    fc.assert(
      fc.property(shape, sequence, ({ of, count, distance, where }, z) => {
        const rule = runRule({
          slug: "ours",
          source: "a shop's own",
          pattern: { kind: "zone", where, distance, count, of },
        });
        const sides = where === "beyond one side" ? [1, -1] : [0];
        const hit = (value: number, side: number) => {
          if (side !== 0) return value * side > distance + 1e-9;
          return where === "within" ? Math.abs(value) < distance - 1e-9 : Math.abs(value) > distance + 1e-9;
        };
        const expected: Firing[] = [];
        const present: number[] = [];
        z.forEach((value, at) => {
          if (value === null) return;
          present.push(at);
          for (const side of sides) {
            const members = present.slice(-of).filter((place) => hit(z[place]!, side));
            if (!hit(value, side) || members.length < count) continue;
            expected.push({
              rule: "ours",
              at,
              members,
              direction: side === 0 ? "either" : side > 0 ? "up" : "down",
            });
          }
        });
        expect(evaluateRules([rule], z)).toEqual(expected);
      }),
    );
  });

  test("the state stays small and plain however long the series", () => {
    const state = startJudging(RULES);
    for (let at = 0; at < 3000; at++) judgePoint(RULES, state, Math.sin(at * 12.9898) * 3, at);
    expect(JSON.stringify(state).length).toBeLessThan(500);
    expect(JSON.parse(JSON.stringify(state))).toEqual(state);
  });

  test("a typed array serves as well as a list", () => {
    const z = [0.5, 3.5, -3.5, 2.2, 2.3];
    expect(evaluateRules(RULES, Float64Array.from(z))).toEqual(evaluateRules(RULES, z));
  });
});

describe("speed", () => {
  test("200,000 points through eight rules", () => {
    const rules = RULE_SETS.NELSON.map(ruleBySlug);
    const z = Float64Array.from({ length: 200_000 }, (_, i) => Math.sin(i * 12.9898) * 2.9);
    const began = process.cpuUsage();
    evaluateRules(rules, z);
    // Measured at 30 to 70 ms on two shared cores; the bound only catches a change of order.
    expect(process.cpuUsage(began).user).toBeLessThan(1_000_000);
  });
});

describe("edge", () => {
  test("no points, no rules", () => {
    expect(evaluateRules(RULES, [])).toEqual([]);
    expect(evaluateRules([], [9, 9])).toEqual([]);
  });

  test.each([Number.NaN, Number.POSITIVE_INFINITY])("a point of %s is refused, not skipped", (z) => {
    expect(() => evaluateRules(RULES, [0, z])).toThrow(
      expect.objectContaining({ name: "InvalidInput", where: "judgePoint", field: "z" }),
    );
  });

  test.each([-1, 1.5, Number.NaN])("a phase start at %s is refused", (start) => {
    expect(() => evaluateRules(RULES, [0, 1], [start])).toThrow(
      expect.objectContaining({ name: "InvalidInput", field: "phaseStarts", value: start }),
    );
  });

  test("a state of other rules is refused", () => {
    const state = startJudging(RULES.slice(0, 2));
    expect(() => judgePoint(RULES, state, 1, 0)).toThrow(/state\.memory/);
  });

  test("the longest pattern of all works", () => {
    const thirty: RunRule = runRule({
      slug: "thirty-above",
      source: "a shop's own",
      pattern: { kind: "zone", where: "beyond one side", distance: 0, count: 30, of: 30 },
    });
    const firings = evaluateRules([thirty], new Array<number>(31).fill(1));
    expect(firings.map((firing) => firing.at)).toEqual([29, 30]);
    expect(firings[1]!.members).toEqual(Array.from({ length: 30 }, (_, i) => i + 1));
  });
});
