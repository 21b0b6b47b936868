import { expect, test } from "vitest";
import { scenario } from "../drift/scenario";
import { commandLine } from "./command";

const { run, file } = commandLine();

const shop = scenario({ seed: 4116, layout: "small", faults: ["fixture_step"], severity: 3 });
const [planted] = shop.planted;

/** The shop's measurements as a tidy file. */
function tidyFile(name: string): string {
  const code = (kind: "lot" | "fixture" | "tool" | "machine" | "gauge" | "operator", id: number) =>
    shop.codeOf(kind, id);
  const rows = shop.parts.flatMap(({ part, features }) =>
    features.flatMap(({ name: feature, nominal, lower, upper, series }) =>
      Array.from(series.value, (value, i) =>
        [
          `P-${series.piece[i]}`,
          new Date(series.takenAt[i]!).toISOString(),
          part,
          feature,
          nominal,
          lower!.toFixed(4),
          upper!.toFixed(4),
          "mm",
          value,
          code("lot", series.lot[i]!),
          code("fixture", series.fixture[i]!),
          code("tool", series.tool[i]!),
          code("machine", series.machine[i]!),
          code("gauge", series.gauge[i]!),
          code("operator", series.operator[i]!),
          series.partTemp[i],
        ].join(","),
      ),
    ),
  );
  const header =
    "piece,taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value,lot,fixture,tool,machine,gauge,operator,part_temp_c";
  return file(name, `${[header, ...rows].join("\n")}\n`);
}

type Said = {
  flags: {
    sourceKind: string;
    sourceId: string;
    kind: string;
    onsetLot: string;
    confidence: number;
    magnitude: number;
    unit: string;
    features: string[];
    sentence: string;
    alternatives: unknown[];
  }[];
};

test("the planted fixture is named, with onset, magnitude, features and a sentence", async () => {
  const name = tidyFile("shop.csv");
  const { code, output, errors } = await run("drift", name, "--json");
  expect({ code, errors }).toEqual({ code: 0, errors: "" });
  const { flags } = JSON.parse(output) as Said;
  expect(flags).toHaveLength(1);
  const [flag] = flags;
  expect(flag).toMatchObject({
    sourceKind: "fixture",
    sourceId: planted!.source.id,
    kind: "step",
    onsetLot: shop.lots[planted!.onsetLot],
    unit: "mm",
  });
  expect(flag!.confidence).toBeGreaterThan(0.9);
  expect(flag!.features.every((one) => planted!.features.includes(one))).toBe(true);
  expect(flag!.sentence).toMatch(new RegExp(`^${planted!.source.id} has moved .*\\smm .* since lot `));
});

test("a repair logged at the change leaves nothing to flag; a wrong row of the events is refused by line", async () => {
  const name = tidyFile("shop.csv");
  const at = new Date(shop.shop.pieces.find(({ lot }) => lot === planted!.onsetLot)!.takenAt).toISOString();
  const events = file("events.csv", `at,source,event\n${at},${planted!.source.id},repaired\n`);
  const { output } = await run("drift", name, "--events", events, "--json");
  expect((JSON.parse(output) as Said).flags).toEqual([]);

  const wrong = file("wrong.csv", `at,source,event\n${at},${planted!.source.id},painted\n`);
  const refused = await run("drift", name, "--events", wrong, "--json");
  expect(refused.code).toBe(1);
  expect(refused.output).toBe("");
  expect(refused.errors).toMatch(/^wrong\.csv, line 2, field "event": .*painted.*\n$/);

  const unknown = file("unknown.csv", `at,source,event\n${at},FX-77,repaired\n`);
  const absent = await run("drift", name, "--events", unknown);
  expect(absent.code).toBe(1);
  expect(absent.errors).toMatch(/^unknown\.csv, line 2, field "source": .*FX-77.*\n$/);
});

test("too little is no failure: nothing is flagged, and the reason is given", async () => {
  const name = file("few.csv", "feature,value,lot,fixture\nbore,1.01,L1,FX-1\nbore,1.02,L2,FX-2\n");
  const { code, output } = await run("drift", name);
  expect(code).toBe(0);
  expect(output).toContain("2 pieces in 2 lots");
});
