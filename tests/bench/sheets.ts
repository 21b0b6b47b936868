import { statementCsv } from "../../app/jobs/statement-sheet/csv";
import { type Printed, statementPdf } from "../../app/jobs/statement-sheet/pdf";
import { statementXlsx } from "../../app/jobs/statement-sheet/xlsx";
import { COMPUTED_BY } from "../../lib/software-version";
import { STATEMENT_FORMAT } from "../../lib/statement/content";
import { stateFeature } from "../../lib/statement/state-feature";
import { randomFrom } from "../fuzz/mutate";
import { featureOf } from "../jobs/statement-feature";
import type { Bench, BenchResult } from "./benches";
import { medianOf, timed } from "./timing";

const SEED = 11;
const READINGS = 400;

export const sheets: Bench = {
  times: "capability statements as PDF, workbook and CSV",
  async run({ rows, runs }): Promise<BenchResult> {
    const readings = rows ?? READINGS;
    const timings = [];
    for (const features of [1, 20, 60]) {
      const prepare = () => statement(features, readings);
      timings.push(
        await timed(`PDF, ${features} features`, runs, {
          prepare,
          work: (made) => statementPdf(made, { paper: "a4" }),
        }),
      );
    }
    const prepare = () => statement(20, readings);
    timings.push(
      await timed("workbook, 20 features", runs, { prepare, work: (made) => statementXlsx(made) }),
    );
    timings.push(await timed("CSV, 20 features", runs, { prepare, work: statementCsv }));
    const twenty = medianOf(timings[1]!.clock);
    return {
      about: `statements of features with ${readings} readings each; medians of ${runs} runs`,
      timings,
      ratios: [{ label: "seconds for the PDF of 20 features, by the clock", value: twenty, bar: "below 3" }],
      remarks: ["Without the start of the thread that makes them, which a page waits for as well."],
    };
  },
};

/** Features of normal readings. */
async function statement(features: number, readings: number): Promise<Printed> {
  const random = randomFrom(SEED);
  const normal = () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
  const stated = [];
  for (let id = 1; id <= features; id++) {
    const values = Array.from({ length: readings }, () => Math.round(10_000 + 10 * normal()) / 1000);
    const { behind, asked, namesOf } = featureOf({
      id,
      name: `Feature ${id}`,
      values,
      tolerance: { lower: 9.95, upper: 10.05 },
    });
    stated.push(await stateFeature(behind, asked, namesOf));
  }
  return {
    id: 1,
    content: {
      format: STATEMENT_FORMAT,
      software: COMPUTED_BY,
      title: "Timed",
      plant: { name: "Plant", zone: "UTC" },
      part: { number: "P-1", revision: "A", name: "Housing" },
      window: { words: "all measurements", from: null, to: null, lots: null },
      confidence: 0.95,
      frozenAt: Date.UTC(2026, 0, 5),
      signedBy: "Nobody",
      features: stated.map(({ feature }) => feature),
    },
    readings: stated.map(({ readings: behind }) => behind),
    contentDigest: "0".repeat(64),
    readingsDigest: "0".repeat(64),
    supersedes: null,
    supersededBy: null,
  };
}
