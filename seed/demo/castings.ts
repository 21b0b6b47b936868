import type { FeatureEntry } from "../../db/commands/plan";
import { randomStream } from "../../lib/random/random-stream";
import { calendarUntil, DEFAULT_ENDS_AT } from "./calendar";
import { type PartNumber, PLAIN_RULES } from "./feature";
import { cell, type DemoFile } from "./files";
import { demoLots } from "./lots";
import { DEFAULT_SEED, type DemoOptions, isWeekend } from "./measure";

/** Castings of H-320 are looked at lot by lot before they are machined, as many as the foundry has sent. */
export const PORES = { part: "H-320" as PartNumber, name: "Castings with pores", share: 0.034 };

const FEWEST = 96;
const MOST = 260;
const MINUTES_BEFORE_MACHINING = 90;

/** How the control plan has it: a share of pieces, each lot with its own number inspected. */
export const PORES_ENTRY: FeatureEntry = {
  name: PORES.name,
  kind: "other",
  nominal: null,
  lower: null,
  upper: null,
  target: null,
  naturalBound: null,
  unit: "none",
  resolution: 1,
  keyCharacteristic: false,
  subgroupSize: 1,
  chart: "i-mr",
  rules: PLAIN_RULES,
  length: null,
  expansion: null,
  reduced: false,
  counts: { chart: "p", size: null },
};

export type CastingLot = { lot: string; takenAt: number; inspected: number; withPores: number };

/** Every lot that was looked at before the weekend, in time order. Nothing is planted: pores come by chance alone. */
export function castingLots({
  seed = DEFAULT_SEED,
  endsAt = DEFAULT_ENDS_AT,
}: DemoOptions = {}): CastingLot[] {
  const calendar = calendarUntil(endsAt);
  const random = randomStream(seed, "pores");
  return demoLots()
    .filter(({ part, slot }) => part === PORES.part && !isWeekend(slot))
    .map(({ code, slot, startsAfter }) => {
      const inspected = FEWEST + Math.floor(random.uniform() * (MOST - FEWEST + 1));
      let withPores = 0;
      for (let piece = 0; piece < inspected; piece++) if (random.uniform() < PORES.share) withPores++;
      return {
        lot: code,
        takenAt: calendar.at(slot, startsAfter - MINUTES_BEFORE_MACHINING),
        inspected,
        withPores,
      };
    });
}

/** The file of the goods-in desk, which comes with the last of these lots. */
export function castingsFile(options: DemoOptions = {}): DemoFile {
  const lines = castingLots(options).map(({ lot, takenAt, inspected, withPores }) =>
    [lot, new Date(takenAt).toISOString().replace(".000Z", "Z"), PORES.part, PORES.name, withPores, inspected]
      .map(cell)
      .join(","),
  );
  return {
    name: "castings-h-320.csv",
    text: `lot,taken_at,part,feature,value,inspected\n${lines.join("\n")}\n`,
  };
}
