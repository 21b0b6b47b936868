import { expect, test } from "vitest";
import type { FileNames } from "../../../lib/intake/batch";
import { type CollectedColumn, Collector } from "../../../lib/intake/collect";
import { interpretCsv } from "../../../lib/intake/interpret";
import { utc } from "../../../lib/intake/zone";
import { tidyMapping } from "./tidy-file";

const HEADER = "piece,taken_at,feature,value,lot,fixture";
const ROWS = [
  "S1,2026-01-05T06:00:00Z,a,1,L1,X",
  "S1,2026-01-05T06:00:00Z,b,10,L1,X",
  "S2,2026-01-05T07:00:00Z,a,2,L1,Y",
  "S2,2026-01-05T07:00:00Z,b,20,L1,Y",
  "S3,2026-01-05T06:30:00Z,a,3,L2,X",
];

function collected(wanted?: readonly CollectedColumn[]) {
  let names: FileNames | null = null;
  let collector: Collector | null = null;
  const file = interpretCsv(
    tidyMapping(HEADER),
    // Three measurements a batch, filled again: what is kept must not change with the next batch.
    { zone: utc, batchRows: 3, reusesBatch: true },
    {
      batch: (batch) => collector?.add(batch),
      refusal: ({ reason }) => expect.fail(reason),
      notice: () => {},
    },
  );
  names = file.names;
  collector = new Collector(names, wanted);
  file.push(new TextEncoder().encode(`${[HEADER, ...ROWS].join("\n")}\n`));
  file.end();
  return collector.features().map(({ filed, series }) => ({ feature: filed.feature, ...series }));
}

test("by hand: rows of two batches gather by feature and in the order of time, with numbers over the file", () => {
  const [a, b] = collected();
  // The row of S3 comes last in the file and lies between the others in time.
  expect(a).toMatchObject({ feature: "a", count: 3 });
  expect([...a!.value]).toEqual([1, 3, 2]);
  expect([...a!.piece]).toEqual([1, 3, 2]);
  expect([...a!.lot]).toEqual([1, 2, 1]);
  expect([...a!.fixture]).toEqual([1, 1, 2]);
  expect([...a!.line]).toEqual([2, 6, 4]);
  expect([...b!.value]).toEqual([10, 20]);
  expect([...b!.fixture]).toEqual([1, 2]);
});

test("a column that nobody asks for states nothing, and the others are the same", () => {
  const [a] = collected(["lot"]);
  expect([...a!.value]).toEqual([1, 3, 2]);
  expect([...a!.lot]).toEqual([1, 2, 1]);
  expect([...a!.fixture]).toEqual([0, 0, 0]);
  expect([...a!.piece]).toEqual([0, 0, 0]);
  expect([...a!.partTemp]).toEqual([Number.NaN, Number.NaN, Number.NaN]);
});
