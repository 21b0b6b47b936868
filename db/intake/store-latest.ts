import { PROGRESS_FORMAT } from "../../lib/evaluation/progress";
import { settledLimits } from "../../lib/evaluation/settled-limits";
import { goOn } from "../commands/judge-feature";
import type { Connection } from "../connection";
import { MOST_IN_A_ROW } from "../measurements/arrivals";
import type { KnownFeature } from "../measurements/known-plant";
import { convertValue, differences, lengthScale } from "./filed-features";
import { replaceNames } from "./name-ids";
import type { ToStore } from "./store-staged";

/*
 * What nearly every posted piece is: one measurement each of many features that are in memory, every one of them later
 * than all that is stored of its feature. It cannot be a duplicate, a correction or late, so nothing that is stored is
 * looked at, and the rows stay together in the columns in which they were read: to give each feature a series of its own,
 * fifteen columns of one number, took more than half of a piece's time.
 */

/** Stores and judges them; false when they are not that, and then nothing was done. */
export function storeLatestOfEach(
  connection: Connection,
  { input, partIds, ids, pieces, arrivals, total }: ToStore,
): boolean {
  const { staging, names, plant, actor } = input;
  const all = staging.oneOfEach;
  if (all === null || all.rows.count > MOST_IN_A_ROW) return false;
  const { rows, features } = all;
  const known: KnownFeature[] = [];
  const featureIds = new Uint32Array(rows.count);
  for (let i = 0; i < rows.count; i++) {
    const filed = names.features[features[i] as number]!;
    const found = plant.heldFeature(partIds.get(filed.part) as number, filed.feature);
    if (found === null || lengthScale(filed.unit, found.row.unit) === null) return false;
    if (!canGoOn(found, rows.takenAt[i] as number, rows.subgroup[i] as number)) return false;
    known.push(found);
    featureIds[i] = found.row.id;
  }
  // Without a part and of the part “unassigned” it may be the same one twice.
  if (partIds.size > 1 && new Set(featureIds).size < rows.count) return false;

  const serials = pieces[0] as Uint32Array;
  for (let i = 0; i < rows.count; i++) {
    const number = rows.piece[i] as number;
    if (number !== 0) rows.piece[i] = serials[number - 1] as number;
    const { unit } = names.features[features[i] as number]!;
    const { row, near } = known[i] as KnownFeature;
    const value = convertValue(rows.value[i] as number, unit, row.unit);
    rows.value[i] = value;
    if (near !== null && (value < near.low || value > near.high))
      total.far.add({ line: rows.line[i] as number, feature: row.name, value });
  }
  replaceNames(rows, ids);
  rows.intake.fill(input.intakeId);
  const arrival = arrivals.addOneOfEach(featureIds, rows);
  for (let i = 0; i < rows.count; i++) {
    const one = known[i] as KnownFeature;
    const { row } = one;
    total.notices.push(...differences(row, names.features[features[i] as number]!));
    const judged = goOn(connection, { known: one, rows, from: i, to: i + 1, arrival, at: actor.at });
    if (judged === null) throw new Error(`Feature ${row.id} could not be gone on from.`);
    if (judged.isStored) one.unstored = 0;
    total.signals += judged.signals;
    total.alarms += judged.alarms;
    if (judged.signals > 0) total.signalled.push({ feature: row, signals: judged.completed });
    total.featureIds.push(row.id);
    total.brought.push([row.id, 1]);
  }
  total.accepted += rows.count;
  input.onFeature(rows.count, rows.count);
  return true;
}

/** Whether a reading of this moment is the latest of its feature, and can be judged without the history. */
function canGoOn({ row, setup, progress }: KnownFeature, takenAt: number, label: number): boolean {
  return (
    progress?.format === PROGRESS_FORMAT &&
    // What is counted has checks of its own, and a label may join a subgroup that was judged.
    !row.plan.counts &&
    label === 0 &&
    progress.lastAt !== null &&
    takenAt > progress.lastAt &&
    settledLimits(progress, setup) !== null
  );
}
