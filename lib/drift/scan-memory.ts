import { isAlike } from "../measurements/alike";
import { type MeasurementSeries, NAME_COLUMNS, NUMBER_COLUMNS } from "../measurements/series";
import { type Prepared, prepare } from "./design";
import type { CodeOf, MeasuredPart, SourceEvent } from "./measured-part";
import { sourceKey } from "./measured-part";
import { type PieceTable, pieceTables } from "./piece-table";
import { type Explained, scanTable, type TableScan } from "./scan-table";
import { type ScatterAsked, scatterHere } from "./scatter";
import { WINDOW_LOTS } from "./settings";
import { type ToolLife, toolLives } from "./tool-life";

/**
 * What earlier scans of the same plant worked out, by part, so that a new lot costs the scan of its own part only.
 *
 * Everything is found again by the content it was made from (a fingerprint of the measurements, the events and the
 * ages of shared tools), never by time or name: a scan with memory gives what a scan without gives. What the latest
 * scan did not need is forgotten. Ids of sources and lots must mean the same in every scan.
 */
export class ScanMemory {
  private tables = new Map<string, PieceTable[]>();
  private aged = new WeakMap<PieceTable, Aged>();
  private prepared = new Map<string, Prepared>();
  private scans = new Map<Prepared, Map<string, TableScan>>();

  /** Parts laid out and standardised; what has not changed is the very object of the scan before. */
  layOut(
    parts: readonly MeasuredPart[],
    {
      codeOf,
      events,
      onPart = () => {},
    }: { codeOf: CodeOf; events: readonly SourceEvent[]; onPart?: (done: number) => void },
  ): Prepared[] {
    const tables = new Map<string, PieceTable[]>();
    const logged = JSON.stringify(events);
    const marks: string[] = [];
    for (const [p, part] of parts.entries()) {
      onPart(p);
      const mark = `${fingerprint(part)}|${logged}`;
      marks.push(mark);
      tables.set(
        mark,
        this.tables.get(mark) ?? pieceTables(part, { codeOf, events, windowLots: WINDOW_LOTS }),
      );
    }
    this.tables = tables;

    const all = marks.flatMap((mark) =>
      tables.get(mark)!.map((table, t) => ({ table, mark: `${mark}|${t}` })),
    );
    const aged = this.agesOf(all.map(({ table }) => table));
    const prepared = new Map<string, Prepared>();
    for (const [t, { table, mark }] of all.entries()) {
      const key = `${mark}|${aged[t]!.mark}`;
      prepared.set(key, this.prepared.get(key) ?? prepare(table, aged[t]!.lives));
    }
    this.prepared = prepared;
    const current = [...prepared.values()];
    const kept = new Set(current);
    for (const old of this.scans.keys()) if (!kept.has(old)) this.scans.delete(old);
    return current;
  }

  /** Tools that no other table names age with that table alone: what is known of them holds as long as it. */
  private agesOf(tables: readonly PieceTable[]): Aged[] {
    const codes = tables.map(({ tools }) => new Set(tools.flatMap((column) => column.codes)));
    const uses = new Map<string, number>();
    for (const code of codes.flatMap((own) => [...own])) uses.set(code, (uses.get(code) ?? 0) + 1);
    const isAlone = codes.map((own) => [...own].every((code) => uses.get(code) === 1));
    const shared = tables.filter((_, t) => !isAlone[t]);
    const together = toolLives(shared);
    return tables.map((table, t) => {
      if (!isAlone[t]) return agedBy(together[shared.indexOf(table)]!);
      const found = this.aged.get(table) ?? agedBy(toolLives([table])[0]!);
      this.aged.set(table, found);
      return found;
    });
  }

  /** A scanner for one scan; call `done` after it. */
  scanner(askScatter: ScatterAsked = scatterHere): {
    scan: (prepared: Prepared, explained: Explained, before: TableScan | null) => TableScan;
    done: () => void;
  } {
    const used = new Map<Prepared, Map<string, TableScan>>();
    return {
      scan: (prepared, explained, before) => {
        const key = explainedKey(explained);
        const found =
          this.scans.get(prepared)?.get(key) ?? scanTable(prepared, explained, { before, askScatter });
        const ofTable = used.get(prepared) ?? new Map<string, TableScan>();
        used.set(prepared, ofTable.set(key, found));
        return found;
      },
      done: () => {
        this.scans = used;
      },
    };
  }
}

function explainedKey({ hypotheses, spread }: Explained): string {
  return `${hypotheses.join(",")}|${spread.map(({ source, from }) => `${sourceKey(source)}@${from}`).join(",")}`;
}

/** A part is never changed in place: the same object is the same content, and need not be read through again. */
const marked = new WeakMap<MeasuredPart, string>();

/** Two independent 32-bit mixes over all that the scan reads of a part. */
function fingerprint(measured: MeasuredPart): string {
  const known = marked.get(measured);
  if (known !== undefined) return known;
  const mark = mixed(measured);
  marked.set(measured, mark);
  return mark;
}

function mixed({ part, features }: MeasuredPart): string {
  const mix = new Mix();
  let before: MeasurementSeries | null = null;
  for (const { series, ...stated } of features) {
    mix.text(JSON.stringify(stated));
    mix.series(series, before);
    before = series;
  }
  return `${part}|${mix.digest()}`;
}

/** Ages of a table's tools, and what tells them from others. */
type Aged = { lives: readonly ToolLife[]; mark: string };

function agedBy(lives: readonly ToolLife[]): Aged {
  return { lives, mark: livesMark(lives) };
}

function livesMark(lives: readonly ToolLife[]): string {
  const mix = new Mix();
  for (const { life, age } of lives) {
    mix.words(life);
    mix.words(new Uint32Array(age.buffer, age.byteOffset, age.length * 2));
  }
  return mix.digest();
}

class Mix {
  private a = 0x811c9dc5;
  private b = 0x2545f491;
  private length = 0;

  words(words: Uint32Array | Int32Array): void {
    let { a, b } = this;
    for (let i = 0; i < words.length; i++) {
      a = Math.imul(a ^ words[i]!, 0x01000193);
      b = Math.imul(b ^ words[i]!, 0x5bd1e995);
      b ^= b >>> 15;
    }
    this.a = a;
    this.b = b;
    this.length += words.length;
  }

  text(text: string): void {
    const codes = new Uint32Array(text.length);
    for (let i = 0; i < codes.length; i++) codes[i] = text.charCodeAt(i);
    this.words(codes);
  }

  /** Most columns are those of the feature before, on the same pieces; comparing is quicker than mixing. */
  series(series: MeasurementSeries, before: MeasurementSeries | null): void {
    for (const name of [...NUMBER_COLUMNS, ...NAME_COLUMNS]) {
      const column = series[name];
      const isAsBefore = before !== null && isAlike(column, before[name]);
      this.words(Uint32Array.of(isAsBefore ? 1 : 0));
      if (!isAsBefore) this.words(new Uint32Array(column.buffer, column.byteOffset, column.byteLength / 4));
    }
  }

  digest(): string {
    return `${this.length}:${(this.a >>> 0).toString(36)}:${(this.b >>> 0).toString(36)}`;
  }
}
