import type { FileNames, IntakeCounts, IntakeSink } from "./batch";
import { type Cell, CellRow } from "./cells";
import { type CsvLimits, CsvReader } from "./csv";
import type { Mapping } from "./mapping";
import { type InterpretOptions, RowInterpreter } from "./row-interpreter";

/** What can be asked of a file while and after it is read. */
type Interpretation = {
  /** Grows while the file is read; indexes once given stay good. */
  readonly names: FileNames;
  readonly counts: Readonly<IntakeCounts>;
  /** Null until the header was read. */
  readonly header: readonly string[] | null;
  /** Hands on what is left. Call once, after the last piece of the file. */
  end(): void;
};

/** Takes a CSV file in chunks of bytes, cut anywhere. */
export type CsvInterpretation = Interpretation & {
  push(chunk: Uint8Array): void;
  /** Hands on the rows that are complete so far, for a look at the start of a file. */
  flush(): void;
};

/** Takes the rows of a sheet with their numbers, the header first; empty rows may be left out. */
export type RowsInterpretation = Interpretation & { push(line: number, cells: readonly Cell[]): void };

/**
 * Reads a CSV file as the mapping says and hands batches, refusals and notices to the sink, in file order.
 *
 * @throws UnreadableFile from `push` or `end`; what was handed on before belongs to a file that must not be stored
 */
export function interpretCsv(
  mapping: Mapping,
  options: InterpretOptions & { csvLimits?: CsvLimits },
  sink: IntakeSink,
): CsvInterpretation {
  const rows = new RowInterpreter(mapping, options, sink);
  const { separator, encoding } = mapping;
  const limits = options.csvLimits === undefined ? {} : { limits: options.csvLimits };
  const reader = new CsvReader(
    { separator, encoding, ...limits },
    (row) => rows.row(row),
    (bytes, from, end, line) => rows.takes(bytes, from, end, line),
  );
  return {
    names: rows.names,
    counts: rows.counts,
    get header() {
      return rows.header;
    },
    push: (chunk) => reader.push(chunk),
    flush() {
      reader.flush();
      rows.flush();
    },
    end() {
      reader.end();
      rows.end();
    },
  };
}

/** The same for the rows of a spreadsheet; every check is the one of `interpretCsv`. */
export function interpretRows(
  mapping: Mapping,
  options: InterpretOptions,
  sink: IntakeSink,
): RowsInterpretation {
  const rows = new RowInterpreter(mapping, options, sink);
  const row = new CellRow(mapping.decimal);
  return {
    names: rows.names,
    counts: rows.counts,
    get header() {
      return rows.header;
    },
    push(line, cells) {
      row.set(line, cells, rows.header?.length ?? 0);
      if (row.count > 0) rows.row(row);
    },
    end: () => rows.end(),
  };
}
