import type { Progress } from "../../lib/evaluation/progress";
import type { EvaluationSetup } from "../../lib/evaluation/setup";
import type { DictionaryColumn } from "../../lib/intake/batch";
import { type NearSpan, nearSpan } from "../../lib/intake/far-values";
import { type Connection, changeMarkOf, once } from "../connection";
import type { FeatureRow } from "../queries/features";
import { setupOf } from "../queries/history";
import type { WaitingReader } from "./arrivals";
import { readProgress, STORED_EVERY } from "./feature-state";

/*
 * What posted pieces have read of the plant: its names, its plan, and what the evaluation remembers of each feature. A
 * line posts the same fifty features piece after piece, and reading them and taking their JSON apart for each was most
 * of the work. So it is kept in memory from one transaction to the next, for as long as nothing else was written to
 * the database meanwhile, by whomever: else it is let go as a whole, and read again.
 */

/** More than a plant has; what comes past them is read each time, so that memory stays bounded. */
const MOST_FEATURES = 4_000;
const MOST_NAMES = 50_000;

export type KnownFeature = {
  row: FeatureRow;
  setup: EvaluationSetup;
  /** What its values are not far between; null where nothing tells. */
  near: NearSpan | null;
  /** Null when it was never judged. It is advanced in place, in step with what is stored. */
  progress: Progress | null;
  /** How many requests have gone on from it since it was stored; see `feature-state.ts`. */
  unstored: number;
};

export class KnownPlant {
  /** Measurements in order of arrival, where they were counted; see `arrivedCount`. */
  arrived: number | null = null;
  /** Ids of parts by the number under which they are filed. */
  readonly parts = new Map<string, number>();
  /** By part, then by name. */
  private readonly features = new Map<number, Map<string, KnownFeature>>();
  /** Ids of lots, sources and labels, by column and text. */
  private readonly ids = new Map<DictionaryColumn, Map<string, number>>();
  private size = { features: 0, names: 0 };

  /** The feature of a part by its name, read once; null when there is none. */
  feature(partId: number, name: string, read: () => KnownFeature | null): KnownFeature | null {
    const ofPart = at(this.features, partId);
    const known = ofPart.get(name);
    if (known !== undefined) return known;
    const found = read();
    if (found === null || this.size.features >= MOST_FEATURES) return found;
    ofPart.set(name, found);
    this.size.features++;
    return found;
  }

  /** The feature if it is in memory already. */
  heldFeature(partId: number, name: string): KnownFeature | null {
    return this.features.get(partId)?.get(name) ?? null;
  }

  /** The id of a name, asked for once. */
  idOf(column: DictionaryColumn, name: string, ask: (name: string) => number): number {
    const ofColumn = at(this.ids, column);
    const known = ofColumn.get(name);
    if (known !== undefined) return known;
    const id = ask(name);
    if (this.size.names >= MOST_NAMES) return id;
    ofColumn.set(name, id);
    this.size.names++;
    return id;
  }
}

function at<K, L, V>(maps: Map<K, Map<L, V>>, key: K): Map<L, V> {
  const known = maps.get(key);
  if (known !== undefined) return known;
  const made = new Map<L, V>();
  maps.set(key, made);
  return made;
}

/** Reads what judging a feature takes. */
export function knownFeature(connection: Connection, row: FeatureRow, waiting?: WaitingReader): KnownFeature {
  const setup = setupOf(connection, row);
  const progress = readProgress(connection, row.id, setup, waiting);
  // Nobody counts how far behind the stored one is: the next request stores it.
  return { row, setup, near: nearSpanOf(row), progress, unstored: STORED_EVERY };
}

function nearSpanOf({ nominal, plan: { tolerance, naturalBound } }: FeatureRow): NearSpan | null {
  return nearSpan({ nominal: nominal ?? naturalBound, ...tolerance });
}

const held = once((): { plant: KnownPlant | null; mark: string } => ({ plant: null, mark: "" }));

/**
 * What is known of the plant, at the beginning of a transaction that holds the write lock. Whoever takes it changes it
 * in step with the database; when the transaction fails it is not given back, and so let go.
 */
export function takeKnownPlant(connection: Connection): KnownPlant {
  const kept = held(connection);
  const { plant } = kept;
  kept.plant = null;
  return plant !== null && kept.mark === changeMarkOf(connection) ? plant : new KnownPlant();
}

/** Gives it back at the transaction's end, when nothing will be written any more. */
export function giveBackKnownPlant(connection: Connection, plant: KnownPlant): void {
  Object.assign(held(connection), { plant, mark: changeMarkOf(connection) });
}
