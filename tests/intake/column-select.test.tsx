import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { ColumnSelect } from "../../app/intake/desk/column-select";

function offered(columns: number, chosen: string | null): string[] {
  const header = Array.from({ length: columns }, (_, i) => `Dim ${i}`);
  const list = renderToStaticMarkup(
    <ColumnSelect
      label="Lot"
      file={{ header, rows: [] }}
      chosen={chosen}
      value={chosen === null ? "none" : `column:${chosen}`}
      before={[{ value: "none", label: "not in this file" }]}
      prefix="column:"
      onChange={() => {}}
    />,
  );
  return [...list.matchAll(/<option value="([^"]*)"/g)].map(([, value]) => value ?? "");
}

test("a file's columns are offered after the other choices", () => {
  expect(offered(2, null)).toEqual(["none", "column:Dim 0", "column:Dim 1"]);
});

test("of very many only the chosen one is, until somebody turns to the list", () => {
  expect(offered(1_500, null)).toEqual(["none"]);
  expect(offered(1_500, "Dim 7")).toEqual(["none", "column:Dim 7"]);
});
