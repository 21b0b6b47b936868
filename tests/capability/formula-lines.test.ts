import { expect, test } from "vitest";
import { formulaLines } from "../../app/capability/[id]/formula-lines";
import { countedLines, modelLines } from "../../app/capability/[id]/further-lines";
import { computed } from "../../lib/computed";
import { stateFeature } from "../../lib/statement/state-feature";
import { featureOf } from "../jobs/statement-feature";
import furnace from "../reference/furnace-film-thickness.json";

const TOLERANCE = { lower: 460, upper: 660 };
const SHOWN = { places: 0, tolerance: TOLERANCE };

async function stated(model: "normal" | "weibull") {
  const { behind, asked, namesOf } = featureOf({
    values: furnace.data.thickness_angstrom,
    tolerance: TOLERANCE,
  });
  return (await stateFeature(behind, { ...asked, model }, namesOf)).feature;
}

/** Numbers of a worked line, and what it says comes out. */
function worked(numbers: string): number[] {
  return [...numbers.matchAll(/\d+(?:\.\d+)?/g)].map(([figure]) => Number(figure));
}

test(`the numbers of a signed study give its indices on paper: ${furnace.source}`, async () => {
  const { study, within } = await stated("normal");
  const lines = formulaLines({ study, limits: computed(within!) }, SHOWN);
  const [upper, lower, six, s, index] = worked(lines.find(({ figure }) => figure === "Pp")!.numbers);
  expect((upper! - lower!) / (six! * s!)).toBeCloseTo(index!, 4);
  // NIST prints 1.31313 for the index with the standard deviation of all readings.
  expect(index).toBeCloseTo(1.31313, 4);
  for (const { rests = [] } of lines.filter(({ figure }) => figure === "Cpk"))
    expect(rests).toContain("stable");
});

test("the percentiles of a fitted model give its index on paper", async () => {
  const { study } = await stated("weibull");
  const line = modelLines(study, SHOWN).find(({ figure }) => figure === "Ppk")!;
  const [a, b, c, d, index] = worked(line.numbers);
  expect((a! - b!) / (c! - d!)).toBeCloseTo(index!, 3);
  expect(index).toBeCloseTo(study.Ppk!, 4);
});

test("counted fractions say count, number and exact interval", async () => {
  const { study } = await stated("normal");
  const lines = countedLines(study, { ...SHOWN, target: null });
  // None outside of 168: the upper end is 1 − 0.025^(1/168), by hand.
  expect(lines[0]!.numbers).toContain("k = 0 of n = 168");
  expect(worked(lines[0]!.numbers).at(-1)).toBeCloseTo(1 - 0.025 ** (1 / 168), 4);
});
