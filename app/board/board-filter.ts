import type { BoardRow } from "../../db/queries/board";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";

/** What the address of the board leaves in: a line, a part by number, a source as "fixture FX-1". */
export type BoardFilter = { line: string; part: string; source: string };

export type SearchParams = Record<string, string | string[] | undefined>;

export function boardFilter(params: SearchParams): BoardFilter {
  const text = (name: string) => {
    const value = params[name];
    return typeof value === "string" ? value : "";
  };
  return { line: text("line"), part: text("part"), source: text("source") };
}

/** Rows that pass; an empty field lets everything through. */
export function filterBoard(rows: readonly BoardRow[], { line, part, source }: BoardFilter): BoardRow[] {
  return rows.filter(
    (row) =>
      (line === "" || row.feature.part.line === line) &&
      (part === "" || row.feature.part.number === part) &&
      (source === "" || sourcesOf(row).some(({ kind, code }) => `${kind} ${code}` === source)),
  );
}

/** Where the latest measurement came from, in the order of the kinds. */
export function sourcesOf({ sources }: Pick<BoardRow, "sources">): { kind: SourceKind; code: string }[] {
  return SOURCE_KINDS.flatMap((kind) => {
    const code = sources[kind];
    return code === undefined ? [] : [{ kind, code }];
  });
}
