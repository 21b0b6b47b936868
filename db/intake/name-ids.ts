import { DICTIONARY_COLUMNS, type DictionaryColumn, type FileNames } from "../../lib/intake/batch";
import { type MeasurementSeries, SOURCE_KINDS, type SourceKind } from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import type { KnownPlant } from "../measurements/known-plant";
import type { FiledPiece } from "./staging";

/** For each column the stored id of every name in the file, by the name's index there; entry 0 is 0. */
export type NameIds = Record<DictionaryColumn, Uint32Array>;

/** Finds the ids of the names a file uses, and enters those that are new. */
export function nameIds(connection: Connection, names: FileNames, plant: KnownPlant): NameIds {
  const ids = {} as NameIds;
  const idFor = enteringEach(connection);
  for (const column of DICTIONARY_COLUMNS) {
    const texts = names[column];
    const found = new Uint32Array(texts.length);
    for (let i = 1; i < texts.length; i++) found[i] = plant.idOf(column, texts[i] as string, idFor[column]);
    ids[column] = found;
  }
  return ids;
}

const enteringEach = once((connection) => {
  const each = {} as Record<DictionaryColumn, (name: string) => number>;
  for (const column of DICTIONARY_COLUMNS) each[column] = entering(connection, column);
  return each;
});

function entering({ sqlite }: Connection, column: DictionaryColumn): (name: string) => number {
  const isSource = (SOURCE_KINDS as readonly string[]).includes(column);
  const [table, text] = isSource
    ? ["source", "code"]
    : column === "lot"
      ? ["lot", "code"]
      : ["subgroup_label", "label"];
  const kind = isSource ? [column as SourceKind] : [];
  const find = sqlite
    .prepare(`select id from ${table} where ${isSource ? "kind = ? and " : ""}${text} = ?`)
    .pluck();
  const enter = sqlite
    .prepare(
      `insert into ${table} (${isSource ? "kind, " : ""}${text}) values (${isSource ? "?, " : ""}?) returning id`,
    )
    .pluck();
  return (name) => (find.get(...kind, name) ?? enter.get(...kind, name)) as number;
}

/** Puts stored ids in the place of the file's indexes; changes `rows`. */
export function replaceNames(rows: MeasurementSeries, ids: NameIds): void {
  for (const column of DICTIONARY_COLUMNS) {
    const from = rows[column];
    const to = ids[column];
    for (let i = 0; i < rows.count; i++) from[i] = to[from[i] as number] as number;
  }
}

/** Stored ids of pieces, entering those that are new. `partIds` gives the part by its number in the file. */
export function pieceIds(
  connection: Connection,
  pieces: readonly FiledPiece[],
  partIds: ReadonlyMap<string, number>,
): Uint32Array {
  const { find, enter } = pieceStatements(connection);
  return Uint32Array.from(pieces, ({ part, serial }) => {
    const partId = partIds.get(part);
    return (find.get(partId, serial) ?? enter.get(partId, serial)) as number;
  });
}

const pieceStatements = once(({ sqlite }) => ({
  find: sqlite.prepare("select id from piece where part_id = ? and serial = ?").pluck(),
  enter: sqlite.prepare("insert into piece (part_id, serial) values (?, ?) returning id").pluck(),
}));
