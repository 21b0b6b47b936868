import { join } from "node:path";
import { openDatabase } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import { featureHistory } from "../../db/queries/history";
import { evaluate } from "../../lib/evaluation/evaluate";
import type { Bench, BenchResult } from "./benches";
import { plantOf, writeCsv } from "./drift-data";
import { medianOf, timed, timedProgram } from "./timing";

const SEED = 20_260_105;
const ROWS = 1_000_000;
const CLI = "app/cli/run.mjs";

export const rebuild: Bench = {
  times: "everything derived computed anew from stored measurements, and the judging alone",
  async run({ rows, folder, runs }): Promise<BenchResult> {
    const plant = plantOf(rows ?? ROWS, { seed: SEED, lots: 60 });
    const csv = join(folder, "measurements.csv");
    await writeCsv(plant, csv);
    const data = join(folder, "data");
    const env = { STEADYREST_DATA: data };
    const taken = timedProgram("intake", 1, [process.execPath, CLI, "intake", csv], env);
    if (!taken.ok) throw new Error(taken.reason);
    const whole = timedProgram(
      "rebuild, program and database",
      runs,
      [process.execPath, CLI, "rebuild"],
      env,
    );
    if (!whole.ok) throw new Error(whole.reason);

    const database = await openDatabase(join(data, "steadyrest.db"));
    try {
      const judged = await timed("reading and judging every feature", runs, {
        prepare: () => listFeatures(database),
        work: async (features) => {
          for (const { id } of features) {
            const history = await featureHistory(database, id);
            if (history) evaluate(history.series, history.setup);
          }
        },
      });
      const rate = plant.rows / medianOf(judged.processor) / 1e6;
      return {
        about: `${plant.rows.toLocaleString("en")} measurements of 300 features; medians of ${runs} runs`,
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
