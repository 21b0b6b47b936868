import { describe, expect, test } from "vitest";
import { nestedComponents } from "../../../lib/components/nested";
import { oneWayAnova } from "../../../lib/components/one-way";
import type { Computed } from "../../../lib/computed";
import { fUpperQuantile } from "../../../lib/distributions/f";
import gear from "../../reference/gear-diameter.json";
import reference from "../../reference/trends-and-groups.json";

function found<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(result.problem.code);
  return result.value;
}

const RELATIVE = 1e-8;
function agree(ours: number | null | undefined, theirs: number): void {
  expect(ours).not.toBeNull();
  expect(Math.abs(ours! - theirs)).toBeLessThanOrEqual(RELATIVE * Math.abs(theirs) + 1e-15);
}

type Named = Record<string, number>;
type OneWayCase = {
  id: string;
  kind: string;
  input: { groups: number[][] };
  expected: {
    anova: Named;
    varianceComponentsAnova: Named;
  };
};

describe(`computed independently, one factor: ${reference.source}`, () => {
  for (const { id, kind, input, expected } of reference.cases as unknown as OneWayCase[]) {
    if (kind !== "one-way") continue;
    const values = input.groups.flat();
    const ids = input.groups.flatMap((group, i) => group.map(() => i));

    test(`${id}: analysis of variance and components`, () => {
      const { between, within, F, p } = found(oneWayAnova(values, ids));
      const { anova, varianceComponentsAnova: components } = expected;
      agree(between.sumOfSquares, anova.sumOfSquaresBetween!);
      agree(within.sumOfSquares, anova.sumOfSquaresWithin!);
      agree(F, anova.fValue!);
      agree(p, anova.pValue!);
      const nested = found(nestedComponents({ values, levels: [{ name: "group", ids }] }));
      agree(nested.lines[0]!.untruncated, components.betweenRaw!);
      agree(nested.lines[0]!.variance, components.between!);
      agree(nested.lines[1]!.variance, components.within!);
      agree(nested.lines[0]!.share, components.intraclassCorrelation!);
    });
  }
});

describe(`published: ${gear.source}`, () => {
  test("critical F", () => {
    const printed = gear.printed.find(({ name }) => name === "critical F 0.05")!.printed as number;
    // Printed 1.9856 here and 1.9855 on the page of Levene's test; the true value is 1.98559.
    expect(Math.abs(fUpperQuantile(0.05, { numerator: 9, denominator: 90 }) - printed)).toBeLessThan(5e-5);
  });
});
