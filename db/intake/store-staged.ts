import type { Signal } from "../../lib/evaluation/progress";
import type { FileNames, Notice, Refusal } from "../../lib/intake/batch";
import { FarValues } from "../../lib/intake/far-values";
import { freshOf, type Resolution } from "../../lib/measurements/resolve";
import type { MeasurementSeries } from "../../lib/measurements/series";
import type { Actor } from "../commands/audit";
import { judgeAnew, judgeNews } from "../commands/judge-feature";
import type { Connection } from "../connection";
import { ArrivalRow, arrivedCount, waitingReader } from "../measurements/arrivals";
import type { KnownFeature, KnownPlant } from "../measurements/known-plant";
import { SETTLE_AT, settle, settleSome } from "../measurements/settle";
import { tails } from "../measurements/store";
import type { FeatureRow } from "../queries/features";
import { countRows } from "./count-rows";
import { convertValues, filedFeature, filedParts, lengthScale, type NewFeatures } from "./filed-features";
import { type NameIds, nameIds, pieceIds, replaceNames } from "./name-ids";
import type { Staging } from "./staging";
import { storeLatestOfEach } from "./store-latest";
import { storeRows } from "./store-rows";

export type StoreInput = {
  intakeId: number;
  staging: Staging;
  names: FileNames;
  newFeatures: NewFeatures;
  plant: KnownPlant;
  actor: Actor;
  /** This very file was taken in before and that intake stands: it does not take back what was corrected since. */
  isKnownFile: boolean;
  onFeature: (done: number, total: number) => void;
};

export type Stored = {
  accepted: number;
  duplicates: number;
  corrections: number;
  /** Of the duplicates, how many have been corrected since and keep their corrected value. */
  corrected: number;
  late: number;
  signals: number;
  alarms: number;
  /** The features of which it brought measurements, and how many. */
  brought: [featureId: number, rows: number][];
  /** Features that have something new. */
  featureIds: number[];
  /** Those of them in which something signalled. */
  signalled: SignalledFeature[];
  refusals: Refusal[];
  notices: Notice[];
  /** What is new or corrected and lies far outside its tolerance. */
  far: FarValues;
};

export type SignalledFeature = {
  feature: FeatureRow;
  /** What signalled; null when just the table can tell. */
  signals: readonly Signal[] | null;
};

/** Somebody waits for the answer to so few; a large intake may as well settle everything. */
const FEW_ROWS = 1000;

/** Stores what was staged, feature by feature, and judges it; inside the caller's transaction. */
export function storeStaged(connection: Connection, input: StoreInput): Stored {
  const { staging, names, plant, actor } = input;
  const total: Stored = {
    accepted: 0,
    duplicates: 0,
    corrections: 0,
    corrected: 0,
    late: 0,
    signals: 0,
    alarms: 0,
    brought: [],
    featureIds: [],
    signalled: [],
    refusals: [],
    notices: [],
    far: new FarValues(),
  };
  const partIds = filedParts(connection, names.features, { plant, actor });
  const ids = nameIds(connection, names, plant);
  const pieces = Array.from({ length: staging.runs }, (_, run) =>
    pieceIds(connection, staging.piecesOf(run), partIds),
  );

  const arrivals = new ArrivalRow(connection);
  if (!storeLatestOfEach(connection, { input, partIds, ids, pieces, arrivals, total }))
    storeByFeature(connection, { input, partIds, ids, pieces, arrivals, total });
  arrivals.store();
  // To count them takes as long as judging ten features, so it is done once.
  plant.arrived = plant.arrived === null ? arrivedCount(connection) : plant.arrived + arrivals.stored;
  if (plant.arrived > SETTLE_AT) {
    plant.arrived = null;
    if (total.accepted < FEW_ROWS) settleSome(connection, { rows: 2 * total.accepted });
    else settle(connection);
  }
  return total;
}

/** What both ways of storing are given. */
export type ToStore = {
  input: StoreInput;
  partIds: ReadonlyMap<string, number>;
  ids: NameIds;
  /** Stored ids of the pieces, by run. */
  pieces: readonly Uint32Array[];
  arrivals: ArrivalRow;
  /** What came of it is added here. */
  total: Stored;
};

/** Whatever the rows are: each feature by itself, beside what is stored of it. */
function storeByFeature(
  connection: Connection,
  { input, partIds, ids, pieces, arrivals, total }: ToStore,
): void {
  const { staging, names, plant, actor } = input;
  let waiting = waitingReader(connection);
  let tail = tails(connection, waiting);
  const touched = new Set<number>();
  const features = staging.features;
  features.forEach((index, done) => {
    input.onFeature(done, features.length);
    const filed = names.features[index]!;
    let rows = staging.load(index, pieces);
    replaceNames(rows, ids);
    rows.intake.fill(input.intakeId);
    const partId = partIds.get(filed.part) as number;
    const { known, notices } = filedFeature(connection, {
      filed,
      partId,
      rows,
      plant,
      waiting,
      newFeatures: input.newFeatures,
      actor,
    });
    const { row } = known;
    total.notices.push(...notices);
    if (lengthScale(filed.unit, row.unit) === null) {
      refuseAll(
        total,
        rows,
        `The file measures “${filed.feature}” in ${filed.unit}, the control plan in ${row.unit}. Correct the one that is wrong.`,
      );
      return;
    }
    convertValues(rows.value, filed.unit, row.unit);
    if (row.plan.counts) rows = countRows(rows, row.plan.counts, total.refusals);
    if (rows.count === 0) return;
    if (touched.has(row.id)) {
      // Without a part and of the part “unassigned”: what the one has brought is there for the other.
      arrivals.store();
      waiting = waitingReader(connection);
      tail = tails(connection, waiting);
    }
    touched.add(row.id);
    const resolution = storeRows(connection, {
      featureId: row.id,
      counts: row.plan.counts ?? null,
      latest: known.progress?.lastAt ?? null,
      rows,
      actor,
      isKnownFile: input.isKnownFile,
      total,
      tail,
      arrivals,
    });
    const fresh = resolution.fresh.length;
    if (fresh + resolution.corrections.length === 0) return;
    total.featureIds.push(row.id);
    remarkFar(total.far, known, rows, resolution);

    const isAppended = resolution.late === 0 && resolution.corrections.length === 0 && resolution.appended;
    const judged = isAppended
      ? judgeNews(connection, {
          known,
          news: freshOf(rows, resolution),
          arrival: resolution.arrival,
          readStored: () => tail(row.id, Number.MIN_SAFE_INTEGER),
          at: actor.at,
        })
      : judgeAnew(connection, {
          feature: row,
          at: actor.at,
          lastBefore: resolution.lastBefore,
          isArrival: true,
          since: firstChange(rows, resolution),
          // Late ones lie in blocks by now, but a correction has moved the feature's waiting rows there as well.
          ...(resolution.corrections.length === 0 ? { readLater: (from) => tail(row.id, from) } : {}),
        });
    known.progress = judged.progress;
    if (judged.isStored) known.unstored = 0;
    total.signals += judged.signals;
    total.alarms += judged.alarms;
    if (judged.signals > 0) total.signalled.push({ feature: row, signals: judged.completed });
    if (fresh > 0) total.brought.push([row.id, fresh]);
  });
  input.onFeature(features.length, features.length);
}

function remarkFar(
  far: FarValues,
  { row: { name: feature }, near }: KnownFeature,
  { value, line }: MeasurementSeries,
  { fresh, corrections }: Resolution,
): void {
  if (near === null) return;
  const look = (position: number) => {
    const at = value[position] as number;
    if (at < near.low || at > near.high) far.add({ line: line[position] as number, feature, value: at });
  };
  fresh.forEach(look);
  for (const { incoming } of corrections) look(incoming);
}

/** When the earliest of the measurements was taken that are new or have another value now. */
function firstChange({ takenAt }: MeasurementSeries, { fresh, corrections }: Resolution): number {
  const changed = [...fresh.slice(0, 1), ...corrections.map(({ incoming }) => incoming)];
  return Math.min(...changed.map((position) => takenAt[position] as number));
}

function refuseAll(total: Stored, rows: MeasurementSeries, reason: string): void {
  for (let i = 0; i < rows.count; i++) {
    total.refusals.push({ line: rows.line[i] as number, field: "unit", reason, raw: String(rows.value[i]) });
  }
}
