import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { inGroups, risingOrder } from "../../../lib/drift/order";

/** Beside the language's own sort, which leaves equal ones in order (ECMAScript 2019, 23.1.3.30). */
const sorted = (values: readonly number[]) => [...values.keys()].sort((a, b) => values[a]! - values[b]!);

describe("rows in order", () => {
  test("by hand: two runs that rise, with an equal value in each", () => {
    expect([...risingOrder([3, 5, 5, 1, 5, 9])]).toEqual([3, 0, 1, 2, 4, 5]);
  });

  test("law: as a stable sort has it, also where runs are many or none", () => {
    const few = fc.array(fc.integer({ min: 0, max: 5 }), { maxLength: 60 });
    const many = fc.array(fc.double({ noNaN: true }), { maxLength: 60 });
    fc.assert(
      fc.property(fc.oneof(few, many), (values) => {
        expect([...risingOrder(values)]).toEqual(sorted(values));
      }),
    );
  });

  test("law: groups of a rising order are sorted by group, then value, then place", () => {
    const pair = fc.tuple(fc.integer({ min: 0, max: 3 }), fc.integer({ min: 0, max: 4 }));
    fc.assert(
      fc.property(fc.array(pair, { maxLength: 60 }), (pairs) => {
        const groups = pairs.map(([group]) => group);
        const values = pairs.map(([, value]) => value);
        expect([...inGroups(risingOrder(values), groups, 4)]).toEqual(
          sorted(values).sort((a, b) => groups[a]! - groups[b]!),
        );
      }),
    );
  });
});
