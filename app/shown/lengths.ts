import "server-only";
import type { Database } from "../../db/connection";
import { type BoardRow, shiftBoard } from "../../db/queries/board";
import {
  type AnsweredFlag,
  answeredFlags,
  endedFlags,
  type FlagRow,
  type LatestScan,
  latestScan,
  openFlags,
} from "../../db/queries/drift";
import { type FeatureRow, featureById, listFeatures } from "../../db/queries/features";
import { type FeatureHistory, featureHistory } from "../../db/queries/history";
import { toleranceWords } from "../../lib/format/numbers";
import type { MeasurementSeries } from "../../lib/measurements/series";
import type { KnownUnit } from "../../lib/plan/feature-plan";
import { inShownUnit, type LengthDisplay, shownUnit } from "../../lib/units/length";
import { shownFlag, shownScan } from "../../lib/units/shown-drift";
import { shownFeatureData, shownHistory, shownStanding } from "../../lib/units/shown-feature";
import { fill } from "../../lib/words/fill";
import { words } from "../language/language";
import { plant } from "../plant";

/*
 * What pages read, with lengths in the unit in which the plant wants to see them. Read from db/queries itself what is
 * stored, signed, sent or entered: that keeps the feature's own unit.
 */

/** `shiftBoard` for a reader. */
export async function boardShown(database: Database): Promise<readonly BoardRow[]> {
  const { lengths } = await plant();
  const rows = await shiftBoard(database);
  return lengths === "plan" ? rows : rows.map(inLengths[lengths]);
}

const inLengths = { mm: eachOnce((row) => shownRow(row, "mm")), in: eachOnce((row) => shownRow(row, "in")) };

/** Of a row that is the same as before, what was made of it before. */
function eachOnce(make: (row: BoardRow) => BoardRow): (row: BoardRow) => BoardRow {
  const known = new WeakMap<BoardRow, BoardRow>();
  return (row) => {
    const shown = known.get(row) ?? make(row);
    known.set(row, shown);
    return shown;
  };
}

function shownRow(row: BoardRow, lengths: LengthDisplay): BoardRow {
  return {
    ...row,
    feature: shownFeatureData(row.feature, lengths),
    standing: row.standing && shownStanding(row.standing, row.feature.unit, lengths),
  };
}

/** `listFeatures` for a reader; for a form the plan's own, in the unit of the drawing. */
export async function featuresShown(
  database: Database,
  of: Parameters<typeof listFeatures>[1] = {},
): Promise<FeatureRow[]> {
  const { lengths } = await plant();
  return (await listFeatures(database, of)).map((feature) => shownFeatureData(feature, lengths));
}

/**
 * A feature's tolerance as the drawing has it, where pages show it in another unit; null where they show the drawing's.
 * A converted limit is rounded to the gauge's step: who has to decide about a piece needs the limit itself.
 */
export async function toleranceAsDrawn(database: Database, id: number): Promise<string | null> {
  const { lengths } = await plant();
  const feature = await featureById(database, id);
  if (feature === null || shownUnit(feature.unit, lengths) === feature.unit) return null;
  const { plant: said, figures } = await words();
  return fill(said.asDrawn, { tolerance: toleranceWords(feature.plan.tolerance, feature, figures) });
}

/** `featureHistory` for a reader. */
export async function historyShown(database: Database, id: number): Promise<FeatureHistory | null> {
  const { lengths } = await plant();
  const history = await featureHistory(database, id);
  return history && shownHistory(history, lengths);
}

/** Measurements for a reader, such as those that follow a history which is shown already; `unit` is the feature's own. */
export async function measurementsShown(
  series: MeasurementSeries,
  unit: KnownUnit,
): Promise<MeasurementSeries> {
  const { lengths } = await plant();
  const shown = inShownUnit(unit, lengths);
  return shown.unit === unit
    ? series
    : { ...series, value: series.value.map((value) => shown.length(value)) };
}

/** `openFlags` for a reader. */
export async function openFlagsShown(database: Database): Promise<FlagRow[]> {
  return flagsShown(await openFlags(database));
}

/** `endedFlags` for a reader. */
export async function endedFlagsShown(database: Database, most: { limit: number }): Promise<FlagRow[]> {
  return flagsShown(await endedFlags(database, most));
}

/** `answeredFlags` for a reader. */
export async function answeredFlagsShown(
  database: Database,
  of: { endedFrom: number },
): Promise<AnsweredFlag[]> {
  return flagsShown(await answeredFlags(database, of));
}

async function flagsShown<Flag extends FlagRow>(flags: readonly Flag[]): Promise<Flag[]> {
  const { lengths } = await plant();
  return flags.map((flag) => ({ ...flag, latest: shownFlag(flag.latest, lengths) }));
}

/** `latestScan` for a reader. */
export async function latestScanShown(database: Database): Promise<LatestScan | null> {
  const { lengths } = await plant();
  const scan = await latestScan(database);
  return scan && { ...scan, result: shownScan(scan.result, lengths) };
}
