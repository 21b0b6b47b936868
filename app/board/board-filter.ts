import type { BoardRow } from "../../db/queries/board";
import { SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import type { FeatureKind } from "../../lib/plan/feature-plan";
import { isFound } from "../../lib/plan/found-feature";

/** What the address of the board leaves in: a line, a part by number, a source as "fixture FX-1", words to be found. */
export type BoardFilter = { line: string; part: string; source: string; find: string };

/** How far somebody has turned the pages of the board, and which part of the quiet features is unfolded, by its id. */
export type BoardPlace = { act: number; watch: number; quiet: number | null; rest: number };

export type SearchParams = Record<string, string | string[] | undefined>;

const FIRST: BoardPlace = { act: 1, watch: 1, quiet: null, rest: 1 };

export function boardFilter(params: SearchParams): BoardFilter {
  return {
    line: textOf(params.line),
    part: textOf(params.part),
    source: textOf(params.source),
    find: textOf(params.find).trim(),
  };
}

export function boardPlace({ act, watch, quiet, rest }: SearchParams): BoardPlace {
  return {
    act: numberOf(act) ?? FIRST.act,
    watch: numberOf(watch) ?? FIRST.watch,
    quiet: numberOf(quiet),
    rest: numberOf(rest) ?? FIRST.rest,
  };
}

/** The address of the board with this filter, at this place; what is as usual is left out. */
export function boardAddress(filter: BoardFilter, place: BoardPlace = FIRST): string {
  const asked = new URLSearchParams();
  for (const [name, value] of Object.entries(filter)) if (value !== "") asked.set(name, value);
  for (const name of ["act", "watch", "quiet", "rest"] as const) {
    if (place[name] !== FIRST[name]) asked.set(name, String(place[name]));
  }
  return asked.size === 0 ? "/" : `/?${asked}`;
}

function textOf(value: string | string[] | undefined): string {
  return typeof value === "string" ? value : "";
}

function numberOf(value: string | string[] | undefined): number | null {
  return /^[1-9]\d{0,8}$/.test(textOf(value)) ? Number(value) : null;
}

/** Rows that pass; an empty field lets everything through. */
export function filterBoard(
  rows: readonly BoardRow[],
  { line, part, source, find }: BoardFilter,
  kinds: Readonly<Record<FeatureKind, string>>,
): readonly BoardRow[] {
  if (line === "" && part === "" && source === "" && find === "") return rows;
  return rows.filter(
    (row) =>
      (line === "" || row.feature.part.line === line) &&
      (part === "" || row.feature.part.number === part) &&
      (source === "" || sourcesOf(row).some(({ kind, code }) => `${kind} ${code}` === source)) &&
      (find === "" || isFound(row.feature, find, kinds)),
  );
}

/** Where the latest measurement came from, in the order of the kinds. */
export function sourcesOf({ sources }: Pick<BoardRow, "sources">): { kind: SourceKind; code: string }[] {
  return SOURCE_KINDS.flatMap((kind) => {
    const code = sources[kind];
    return code === undefined ? [] : [{ kind, code }];
  });
}

/** What a board can be narrowed to. */
export type BoardChoices = { lines: string[]; parts: string[]; sources: string[] };

const known = new WeakMap<readonly BoardRow[], BoardChoices>();

/** Found once for the rows of a moment, not for everybody who looks at them. */
export function choicesOf(rows: readonly BoardRow[]): BoardChoices {
  const choices = known.get(rows) ?? {
    lines: sorted(new Set(rows.map(({ feature }) => feature.part.line))),
    parts: sorted(new Set(rows.map(({ feature }) => feature.part.number))),
    sources: SOURCE_KINDS.flatMap((kind) => {
      const codes = new Set(rows.map(({ sources }) => sources[kind] ?? ""));
      return sorted(codes).map((code) => `${kind} ${code}`);
    }),
  };
  known.set(rows, choices);
  return choices;
}

/** One for all: `localeCompare` makes its own at each call. */
const { compare } = new Intl.Collator("en", { numeric: true });

function sorted(values: ReadonlySet<string>): string[] {
  return [...values].filter((value) => value !== "").sort(compare);
}
