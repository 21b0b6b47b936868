"use client";

import type { Mapping } from "../../../lib/intake/mapping";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { FieldGroup } from "../../fittings/fields";
import { ColumnSelect } from "./column-select";
import type { FileStart } from "./columns-of";

const NONE = "";
const MOST_PARTS = 8;

/** The columns that, joined with hyphens, tell one piece from another; the list grows as parts are chosen. */
export function PieceParts({
  mapping,
  file,
  onChange,
  words: { tidy, editor: said },
}: {
  mapping: Mapping;
  file: FileStart;
  onChange: (mapping: Mapping) => void;
  words: Pick<Words["desk"], "tidy" | "editor">;
}) {
  const { piece } = mapping;
  // By place: a part moves up when one before it is taken away.
  const shown = (piece.length < MOST_PARTS ? [...piece, NONE] : piece).map((column, at) => ({
    place: at + 1,
    column,
    at,
  }));
  const choose = (at: number, column: string) => {
    const next = [...piece];
    next[at] = column;
    const valueColumns = mapping.valueColumns.filter((value) => value.column !== column);
    onChange({ ...mapping, valueColumns, piece: next.filter((part) => part !== NONE) });
  };
  return (
    <FieldGroup
      legend={said.pieceLegend}
      hint={piece.length > 0 ? fill(said.serialIs, { serial: serialOf(piece, file) }) : tidy.piece}
    >
      {shown.map(({ place, column, at }) => (
        <ColumnSelect
          key={place}
          label={at === 0 ? said.serial : fill(said.joined, { number: at + 1 })}
          value={column}
          file={file}
          chosen={column || null}
          before={[{ value: NONE, label: at === 0 ? said.none : said.nothingMore }]}
          onChange={(event) => choose(at, event.target.value)}
        />
      ))}
    </FieldGroup>
  );
}

function serialOf(piece: readonly string[], { header, rows }: FileStart): string {
  const [first] = rows;
  return piece.map((column) => first?.[header.indexOf(column)]?.trim() || column).join("-");
}
