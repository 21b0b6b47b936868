import { describe, expect, test } from "vitest";
import { compareFeature, recomputedWords } from "../../../lib/statement/compare";
import { listingOf, stateFeature } from "../../../lib/statement/state-feature";
import { gaugeWords, quotedIndex, samplePlanWords } from "../../../lib/statement/words";
import { featureOf } from "../../jobs/statement-feature";

const VALUES = [9.98, 10.01, 10.02, 9.99, 10.03, 10, 9.97, 10.02];
const TOLERANCE = { lower: 9.9, upper: 10.1 };

async function stated(values: readonly number[] = VALUES) {
  const { behind, asked, namesOf } = featureOf({ values, tolerance: TOLERANCE });
  return stateFeature(behind, asked, namesOf);
}

describe("two statements of a feature", () => {
  test("are the same when nothing changed, also after a stay in a file", async () => {
    const kept = JSON.parse(JSON.stringify(await stated())) as Awaited<ReturnType<typeof stated>>;
    const found = compareFeature(kept, await stated());
    expect(found).toMatchObject({ sameData: true, sameFigures: true, differences: [] });
    expect(recomputedWords([found], { signed: "1", now: "1" })).toMatch(
      /^Same to the last digit.* Computed by the same program, 1\.$/,
    );
  });

  test("part in the last digit of one figure: the figure is named with both values", async () => {
    const before = await stated();
    const now = await stated();
    const Ppk = before.feature.study.Ppk!;
    // The next double: 2⁻⁵² of it away.
    now.feature.study.Ppk = Ppk * (1 + Number.EPSILON);
    const found = compareFeature(before, now);
    expect(found).toMatchObject({ sameData: true, sameFigures: false });
    expect(found.differences).toEqual([
      { what: "study, Ppk", stated: String(Ppk), now: String(now.feature.study.Ppk) },
    ]);
    expect(recomputedWords([found], { signed: "1", now: "2" })).toMatch(
      /from the same measurements.* Signed with the program 1, recomputed with 2\.$/,
    );
  });

  test("name a reading that is gone, new or another, with its piece and moment", async () => {
    const before = await stated();
    const changed = await stated([9.98, 10.05, ...VALUES.slice(2)]);
    expect(compareFeature(before, changed).differences[0]).toMatchObject({
      what: "reading of 2026-01-05T01:00:00.000Z, piece piece-2",
      stated: "10.01 (lot lot-1, gauge G-1)",
      now: "10.05 (lot lot-1, gauge G-1)",
    });
    const shorter = await stated(VALUES.slice(0, -1));
    expect(compareFeature(before, shorter).differences[0]).toMatchObject({ now: "not there any more" });
    expect(compareFeature(shorter, before).differences[0]).toMatchObject({ stated: "not there yet" });
  });

  test("say twenty differences and how many more there are", async () => {
    const many = Array.from({ length: 60 }, (_, i) => 10 + (i % 7) / 1000);
    const moved = many.map((value) => value + 0.001);
    const found = compareFeature(await stated(many), await stated(moved));
    expect(found.differences).toHaveLength(21);
    expect(found.differences.at(-1)!.what).toMatch(/^and \d+ further differences$/);
  });
});

describe("what was measured", () => {
  test("by hand: 1, 2, 6 against at most 5 has mean 3 and one out; on the limit is in", () => {
    const gauge = ["A", "A", "B"];
    expect(listingOf({ value: [1, 2, 6], gauge }, { lower: null, upper: 5 })).toEqual({
      count: 3,
      min: 1,
      mean: 3,
      max: 6,
      inside: 2,
      outside: 1,
      gauges: [
        { code: "A", count: 2 },
        { code: "B", count: 1 },
      ],
    });
    expect(listingOf({ value: [5], gauge: [""] }, { lower: 5, upper: 5.1 })).toMatchObject({ outside: 0 });
    expect(listingOf({ value: [], gauge: [] }, { lower: 0, upper: 1 })).toBeNull();
  });

  test("gauges are named up to three, and unstated ones are said", () => {
    expect(gaugeWords(["CMM-1"])).toBe("CMM-1");
    expect(gaugeWords(["CMM-1", ""])).toBe("CMM-1, some not stated");
    expect(gaugeWords(["A", "B", "C", "D"])).toBe("4 gauges");
    expect(gaugeWords([""])).toBe("not stated");
  });

  test("eight readings promise no capability: Ppk is quoted, and the sample is told", async () => {
    const { feature } = await stated();
    expect(quotedIndex(feature)).toMatchObject({ name: "Ppk", value: feature.study.Ppk });
    expect(samplePlanWords(feature)).toBe(
      "8 readings as subgroups of 4 taken together: 2 complete subgroups from 1 lot.",
    );
  });
});
