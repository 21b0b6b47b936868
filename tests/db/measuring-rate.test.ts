import { expect, test } from "vitest";
import { connectionOf } from "../../db/connection";
import { settle } from "../../db/measurements/settle";
import { listFeatures } from "../../db/queries/features";
import { measuredBetween } from "../../db/queries/measuring-rate";
import { bringIn, emptyPlant, tidyFile } from "./plant";

const START = Date.UTC(2026, 0, 5, 8);
const MINUTE = 60_000;

/** A bore every five minutes from 08:00, and a face with every third of them. */
function rows() {
  return Array.from({ length: 30 }, (_, i) => {
    const takenAt = START + 5 * i * MINUTE;
    const bore = { takenAt, piece: `P${i}`, value: 10 + (i % 3) / 100 };
    return i % 3 === 0 ? [bore, { ...bore, feature: "face" }] : [bore];
  }).flat();
}

test("by hand: readings within the range are counted, waiting in order of arrival or settled", async () => {
  const database = await emptyPlant();
  await bringIn(database, tidyFile(rows()));
  const ids = new Map((await listFeatures(database)).map(({ id, name }) => [name, id]));
  // From 08:30 to 09:30, both counted: readings 6 to 18 of the bore; 6, 9, 12, 15 and 18 of the face.
  const range = { from: START + 30 * MINUTE, to: START + 90 * MINUTE };
  const look = async () => {
    const { readings, quarterHours } = await measuredBetween(database, range);
    return {
      bore: readings.get(ids.get("bore")!),
      face: readings.get(ids.get("face")!),
      quarters: [...quarterHours].sort().map((at) => (at - START) / MINUTE),
    };
  };
  const expected = { bore: 13, face: 5, quarters: [30, 45, 60, 75, 90] };
  expect(await look()).toEqual(expected);
  settle(connectionOf(database));
  expect(await look()).toEqual(expected);
});

test("edge: nothing measured in the range", async () => {
  const database = await emptyPlant();
  await bringIn(database, tidyFile(rows()));
  const { readings, quarterHours } = await measuredBetween(database, { from: 0, to: START - 1 });
  expect([readings.size, quarterHours.size]).toEqual([0, 0]);
});
