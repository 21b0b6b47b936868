import { join } from "node:path";
import { openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { evaluate } from "../../lib/evaluation/evaluate";
import type { Bench, BenchResult } from "./benches";
import { commandLine } from "./command-line";
import { plantOf } from "./drift-data";
import { storedOnce } from "./stored-plant";
import { medianOf, timed, timedProgram } from "./timing";

const SEED = 20_260_105;
const ROWS = 1_000_000;

export const rebuild: Bench = {
  times: "everything derived computed anew from stored measurements, and the judging alone",
  async run({ rows = ROWS, folder, kept, runs }): Promise<BenchResult> {
    const data = await storedOnce(join(kept ?? folder, `rebuild-${rows}`), [
      () => plantOf(rows, { seed: SEED, lots: 60 }),
    ]);
    const env = { STEADYREST_DATA: data };
    const whole = timedProgram("rebuild, program and database", runs, commandLine("rebuild"), env);
    if (!whole.ok) throw new Error(whole.reason);

    const database = await openDatabase(join(data, "steadyrest.db"));
    let measurements = 0;
    try {
      const judged = await timed("reading and judging every feature", runs, {
        prepare: () => listFeatures(database),
        work: async (features) => {
          measurements = 0;
          for (const { id } of features) {
            const history = await featureHistory(database, id);
            if (history) evaluate(history.series, history.setup);
            measurements += history?.series.count ?? 0;
          }
        },
      });
      const rate = measurements / medianOf(judged.processor) / 1e6;
      return {
        about: `${measurements.toLocaleString("en")} measurements of 300 features; medians of ${runs} runs`,
        timings: [whole.timing, judged],
        ratios: [
          { label: "million measurements judged in a second of processor", value: rate, bar: "at least 1" },
        ],
        remarks: [],
      };
    } finally {
      await database.close();
    }
  },
};
