import { isAlike } from "../measurements/alike";
import { NAME_COLUMNS, NUMBER_COLUMNS } from "../measurements/series";
import { type Prepared, prepare } from "./design";
import {
  type CodeOf,
  type MeasuredFeature,
  type MeasuredPart,
  type SourceEvent,
  sourceKey,
} from "./measured-part";
import { isSame } from "./neighbours";
import { type PieceTable, pieceTables } from "./piece-table";
import { type Explained, scanTable, type TableScan } from "./scan-table";
import { type ScatterAsked, scatterHere } from "./scatter";
import { WINDOW_LOTS } from "./settings";
import { type ToolLife, toolLives } from "./tool-life";

/**
 * What earlier scans of the same plant worked out, by part, so that a new lot costs the scan of its own part only.
 *
 * Everything is found again by what it was made from (the measurements, the events and the ages of shared tools), never
 * by time or name: a scan with memory gives what a scan without gives. What the latest scan did not need is forgotten.
 * Ids of sources and lots must mean the same in every scan, and parts are never changed in place.
 */
export class ScanMemory {
  private laidOut: LaidOut[] = [];
  private aged = new WeakMap<PieceTable, readonly ToolLife[]>();
  private prepared = new Map<PieceTable, OfAge>();
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
    const logged = JSON.stringify(events);
    const before = this.laidOut;
    this.laidOut = parts.map((part, p) => {
      onPart(p);
      const known = before.find((one) => one.logged === logged && isSamePart(one.part, part));
      const tables = known?.tables ?? pieceTables(part, { codeOf, events, windowLots: WINDOW_LOTS });
      return { part, logged, tables };
    });
    const tables = this.laidOut.flatMap((one) => one.tables);
    const lives = this.livesOf(tables);
    const prepared = new Map<PieceTable, OfAge>();
    for (const [t, table] of tables.entries()) {
      const own = lives[t]!;
      const known = this.prepared.get(table);
      prepared.set(
        table,
        known !== undefined && isSameAge(known.lives, own)
          ? known
          : { lives: own, prepared: prepare(table, own) },
      );
    }
    this.prepared = prepared;
    const current = Array.from(prepared.values(), (one) => one.prepared);
    const kept = new Set(current);
    for (const old of this.scans.keys()) if (!kept.has(old)) this.scans.delete(old);
    return current;
  }

  /** Tools that no other table names age with that table alone: what is known of them holds as long as it. */
  private livesOf(tables: readonly PieceTable[]): (readonly ToolLife[])[] {
    const codes = tables.map(({ tools }) => new Set(tools.flatMap((column) => column.codes)));
    const uses = new Map<string, number>();
    for (const code of codes.flatMap((own) => [...own])) uses.set(code, (uses.get(code) ?? 0) + 1);
    const isAlone = codes.map((own) => [...own].every((code) => uses.get(code) === 1));
    const shared = tables.filter((_, t) => !isAlone[t]);
    const together = toolLives(shared);
    return tables.map((table, t) => {
      if (!isAlone[t]) return together[shared.indexOf(table)]!;
      const found = this.aged.get(table) ?? toolLives([table])[0]!;
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

type LaidOut = { part: MeasuredPart; logged: string; tables: PieceTable[] };

type OfAge = { lives: readonly ToolLife[]; prepared: Prepared };

/** A part with a new lot is longer, so that the first of its columns tells. */
function isSamePart(a: MeasuredPart, b: MeasuredPart): boolean {
  if (a === b) return true;
  if (a.part !== b.part || a.features.length !== b.features.length) return false;
  return a.features.every((feature, f) => isSameFeature(feature, b.features[f]!));
}

function isSameFeature({ series, ...stated }: MeasuredFeature, { series: other, ...also }: MeasuredFeature) {
  return (
    series.count === other.count &&
    JSON.stringify(stated) === JSON.stringify(also) &&
    COMPARED.every((name) => isAlike(series[name], other[name]))
  );
}

const COMPARED = [...NUMBER_COLUMNS, ...NAME_COLUMNS] as const;

function isSameAge(a: readonly ToolLife[], b: readonly ToolLife[]): boolean {
  if (a === b) return true;
  return (
    a.length === b.length &&
    a.every(({ life, age }, t) => isSame(life, b[t]!.life) && isAlike(age, b[t]!.age))
  );
}
