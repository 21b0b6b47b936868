import { closeSync, mkdtempSync, openSync, readSync, rmSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import type { FileNames, TidyBatch } from "../../lib/intake/batch";
import { inOrder, joined, picked, sliced } from "../../lib/measurements/order";
import {
  emptySeries,
  type MeasurementSeries,
  NAME_COLUMNS,
  NUMBER_COLUMNS,
  noneInspected,
} from "../../lib/measurements/series";
import { decodeBlocks, encodeBlock } from "../measurements/block";

/** Rows gathered before they are sorted and written out: 17 MB of columns. */
const RUN_ROWS = 262_144;

/** Room to begin with; most files hold one piece or one lot. */
const FIRST_ROWS = 4_096;

/** A piece by its part's number and its serial. */
export type FiledPiece = { part: string; serial: string };

/** A feature's rows of one run: places in a run that is still in memory, or packed in the scratch file. */
type Segment = { run: number } & (
  | { rows: MeasurementSeries; places: Uint32Array }
  | { offset: number; length: number }
);

/**
 * Where a file's rows wait until all of it has been read.
 *
 * A file is stored whole or not at all, it comes in time order, and the store wants it by feature. So rows
 * gather in runs; each run is sorted by feature and written to a scratch file in the packed form of the
 * store, and what stays in memory is one run and an index. A file of any length needs the same memory.
 * One that is done within its first run needs no scratch file: a posted piece never touches one.
 */
export class Staging {
  private scratch: { folder: string; file: number } | null = null;
  private readonly segments = new Map<number, Segment[]>();
  private written = 0;
  /** The earliest moment of any row. */
  firstTakenAt = Number.POSITIVE_INFINITY;
  /** The latest, and the line of its row. */
  lastTakenAt = Number.NEGATIVE_INFINITY;
  lastLine = 0;

  /** The only run, once all rows were added. */
  private only: { rows: MeasurementSeries; features: Uint32Array } | null = null;
  private run: MeasurementSeries;
  private runFeature: Uint32Array;
  private runCount = 0;
  private runPieces = new Map<string, number>();
  private readonly pieces: FiledPiece[][] = [[]];

  constructor(
    private readonly names: FileNames,
    { firstRows = FIRST_ROWS } = {},
  ) {
    this.run = emptySeries(firstRows);
    this.runFeature = new Uint32Array(firstRows);
  }

  /** Takes a batch as it comes from the file. */
  add(batch: TidyBatch): void {
    let from = 0;
    while (from < batch.count) {
      const to = Math.min(batch.count, from + RUN_ROWS - this.runCount);
      this.makeRoom(this.runCount + to - from);
      this.copy(batch, from, to);
      if (this.runCount === RUN_ROWS) this.spill();
      from = to;
    }
  }

  private copy(batch: TidyBatch, from: number, to: number): void {
    const at = this.runCount;
    for (const column of NUMBER_COLUMNS) this.run[column].set(batch[column].subarray(from, to), at);
    for (const column of NAME_COLUMNS) this.run[column].set(batch[column].subarray(from, to), at);
    this.copyInspected(batch, from, to);
    this.run.line.set(batch.line.subarray(from, to), at);
    this.runFeature.set(batch.feature.subarray(from, to), at);
    for (let i = from; i < to; i++) {
      const takenAt = batch.takenAt[i] as number;
      if (takenAt < this.firstTakenAt) this.firstTakenAt = takenAt;
      if (takenAt > this.lastTakenAt) {
        this.lastTakenAt = takenAt;
        this.lastLine = batch.line[i] as number;
      }
    }
    this.takePieces(batch, from, to, at);
    this.runCount += to - from;
  }

  private copyInspected({ inspected }: TidyBatch, from: number, to: number): void {
    const { run, runCount: at } = this;
    if (inspected !== null) {
      run.inspected ??= noneInspected(this.runFeature.length);
      run.inspected.set(inspected.subarray(from, to), at);
    } else run.inspected?.fill(Number.NaN, at, at + to - from);
  }

  private makeRoom(rows: number): void {
    if (rows <= this.runFeature.length) return;
    const room = Math.min(RUN_ROWS, Math.max(rows, 2 * this.runFeature.length));
    this.run = joined([this.run, emptySeries(room - this.runFeature.length)]);
    const features = new Uint32Array(room);
    features.set(this.runFeature);
    this.runFeature = features;
  }

  /** Gives the run's pieces numbers from 1, and the rows those numbers. */
  private takePieces(batch: TidyBatch, from: number, to: number, at: number): void {
    const list = this.pieces[this.pieces.length - 1] as FiledPiece[];
    let part = "";
    let known = new Uint32Array(0);
    for (let i = from; i < to; i++) {
      const filed = batch.piece[i] as number;
      if (filed === 0) continue;
      const owner = this.names.features[batch.feature[i] as number]?.part ?? "";
      if (owner !== part || known.length === 0) {
        part = owner;
        known = new Uint32Array(batch.pieces.length);
      }
      if (known[filed] === 0) {
        const serial = batch.pieces[filed] as string;
        const key = `${part}\u0000${serial}`;
        let number = this.runPieces.get(key);
        if (number === undefined) {
          number = list.push({ part, serial });
          this.runPieces.set(key, number);
        }
        known[filed] = number;
      }
      this.run.piece[at + i - from] = known[filed] as number;
    }
  }

  private writeOut(rows: MeasurementSeries): { offset: number; length: number } {
    if (this.scratch === null) {
      const folder = mkdtempSync(path.join(tmpdir(), "steadyrest-intake-"));
      this.scratch = { folder, file: openSync(path.join(folder, "rows"), "w+") };
    }
    const bytes = encodeBlock(inOrder(rows));
    const offset = this.written;
    writeSync(this.scratch.file, bytes, 0, bytes.length, offset);
    this.written += bytes.length;
    return { offset, length: bytes.length };
  }

  private spill(isOnlyRun = false): void {
    if (this.runCount === 0) return;
    const run = this.pieces.length - 1;
    const rows = isOnlyRun ? sliced(this.run, 0, this.runCount) : this.run;
    if (isOnlyRun) this.only = { rows, features: this.runFeature.subarray(0, this.runCount) };
    for (const [feature, places] of this.positionsByFeature()) {
      const segment = isOnlyRun ? { run, rows, places } : { run, ...this.writeOut(picked(rows, places)) };
      const earlier = this.segments.get(feature);
      if (earlier) earlier.push(segment);
      else this.segments.set(feature, [segment]);
    }
    this.runCount = 0;
    this.runPieces = new Map();
    this.pieces.push([]);
  }

  /** Counting sort: for each feature the positions of its rows in file order. */
  private positionsByFeature(): Map<number, Uint32Array> {
    const counts = new Uint32Array(this.names.features.length);
    for (let i = 0; i < this.runCount; i++) counts[this.runFeature[i] as number]!++;
    const positions = new Map<number, Uint32Array>();
    counts.forEach((count, feature) => {
      if (count > 0) positions.set(feature, new Uint32Array(count));
    });
    counts.fill(0);
    for (let i = 0; i < this.runCount; i++) {
      const feature = this.runFeature[i] as number;
      positions.get(feature)![counts[feature]!++] = i;
    }
    return positions;
  }

  /** To be called once all rows were added. Then `features`, `piecesOf` and `load` tell what was staged. */
  finish(): void {
    this.spill(this.scratch === null);
    this.run = emptySeries(0);
    this.runFeature = new Uint32Array(0);
  }

  /** Indexes of the features that have rows, in the order in which the file names them. */
  get features(): number[] {
    return [...this.segments.keys()].sort((a, b) => a - b);
  }

  get runs(): number {
    return this.pieces.length - 1;
  }

  /**
   * All rows in the order in which they came, with the feature of each, where no feature has two of them: a posted
   * piece. Null else, and when rows were written out.
   */
  get oneOfEach(): { rows: MeasurementSeries; features: Uint32Array } | null {
    return this.only !== null && this.segments.size === this.only.rows.count ? this.only : null;
  }

  /** Pieces of a run; the rows of that run refer to them by position, from 1. */
  piecesOf(run: number): readonly FiledPiece[] {
    return this.pieces[run] as FiledPiece[];
  }

  /**
   * One feature's rows in time order. Pieces are replaced by `pieceIds[run][number − 1]`; the other names
   * are still those of the file.
   */
  load(feature: number, pieceIds: readonly Uint32Array[]): MeasurementSeries {
    const parts = (this.segments.get(feature) ?? []).map((segment) => {
      const rows = "rows" in segment ? picked(segment.rows, segment.places) : this.readBack(segment);
      const ids = pieceIds[segment.run] as Uint32Array;
      for (let i = 0; i < rows.count; i++) {
        const number = rows.piece[i] as number;
        if (number !== 0) rows.piece[i] = ids[number - 1] as number;
      }
      return rows;
    });
    return inOrder(joined(parts));
  }

  private readBack({ offset, length }: { offset: number; length: number }): MeasurementSeries {
    if (this.scratch === null) throw new Error("Staging.load requires a scratch file for rows written out.");
    const bytes = Buffer.from(new ArrayBuffer(length));
    readSync(this.scratch.file, bytes, 0, length, offset);
    return decodeBlocks([bytes]);
  }

  close(): void {
    if (this.scratch === null) return;
    closeSync(this.scratch.file);
    rmSync(this.scratch.folder, { recursive: true, force: true });
    this.scratch = null;
  }
}
