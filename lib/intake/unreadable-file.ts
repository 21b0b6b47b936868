export type UnreadableCode =
  | "empty"
  | "binary"
  | "encoding"
  | "field-too-long"
  | "row-too-long"
  | "too-many-columns"
  | "unclosed-quote"
  | "mapping"
  | "too-many-names"
  | "unsupported"
  | "archive"
  | "xml"
  | "too-many-rows";

/**
 * The whole file has to be turned away: what was found, where, and what the person can do about it.
 *
 * A bad row is a `Refusal` and never stops a file. This stops it, and the receiver stores nothing of it.
 */
export class UnreadableFile extends Error {
  override name = "UnreadableFile";

  constructor(
    readonly code: UnreadableCode,
    /** Physical line, or null when the fault is not at a line. */
    readonly line: number | null,
    message: string,
  ) {
    super(line === null ? message : `Line ${line}: ${message}`);
  }
}
