import { expect, test } from "vitest";
import { listParts } from "../../db/queries/features";
import { partHistories } from "../../db/queries/part-histories";
import { bringIn, emptyPlant, tidyFile } from "./plant";

const MINUTE = 60_000;
const START = Date.UTC(2026, 0, 5, 6);

test("every feature of a part with its own measurements in time order; none for an unknown part", async () => {
  const database = await emptyPlant();
  const rows = ["bore", "face"].flatMap((feature, f) =>
    [3, 1, 2].map((turn) => ({ takenAt: START + turn * MINUTE, feature, value: 10 + f / 100 + turn / 1000 })),
  );
  await bringIn(database, tidyFile(rows));
  const [part] = await listParts(database);
  const histories = await partHistories(database, part!.id);
  expect(histories.map(({ feature }) => feature.name)).toEqual(["bore", "face"]);
  expect(histories.map(({ series }) => Array.from(series.value))).toEqual([
    [10.001, 10.002, 10.003],
    [10.011, 10.012, 10.013],
  ]);
  expect(histories[0]!.setup.plan.tolerance).toEqual({ lower: 9.9, upper: 10.1 });
  expect(await partHistories(database, 99)).toEqual([]);
});
