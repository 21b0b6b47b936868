import { inOrder } from "../../lib/measurements/order";
import { emptySeries, NAME_COLUMNS, SOURCE_KINDS } from "../../lib/measurements/series";
import { connectionOf, type Database, write } from "../connection";
import { mergeIntoBlocks } from "./store";

const COLUMNS = [
  "taken_at",
  "value",
  "part_temp",
  "piece_id",
  "lot_id",
  ...SOURCE_KINDS.map((kind) => `${kind}_id`),
  "subgroup_id",
  "intake_id",
  "line",
];

/**
 * Versions before kept what had arrived last as a row each. They move into the blocks of their features, whole or not
 * at all; nothing is done where there are none.
 */
export async function settleRowsOfBefore(database: Database): Promise<void> {
  // A look needs no lock, for which a verb of the command line would wait while a long file is stored.
  const { sqlite: looked } = connectionOf(database);
  if (looked.prepare("select 1 from measurement_arrival limit 1").get() === undefined) return;
  await write(database, (connection) => {
    const { sqlite } = connection;
    const features = sqlite.prepare("select distinct feature_id from measurement_arrival").pluck().all();
    const rowsOf = sqlite
      .prepare(`select ${COLUMNS.join(", ")} from measurement_arrival where feature_id = ?`)
      .raw();
    for (const feature of features as number[]) {
      const rows = rowsOf.all(feature) as (number | null)[][];
      const series = emptySeries(rows.length);
      for (const [i, [takenAt, value, partTemp, ...others]] of rows.entries()) {
        series.takenAt[i] = takenAt ?? Number.NaN;
        series.value[i] = value ?? Number.NaN;
        series.partTemp[i] = partTemp ?? Number.NaN;
        for (const [k, column] of [...NAME_COLUMNS, "intake" as const, "line" as const].entries())
          series[column][i] = others[k] ?? 0;
      }
      mergeIntoBlocks(connection, feature, inOrder(series));
    }
    sqlite.exec("delete from measurement_arrival");
  });
}
