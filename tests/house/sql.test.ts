import { describe, expect, test } from "vitest";
import { listed, sourceFiles } from "./source-files";
import { sqlOutsideDb } from "./sql";

test("only db knows SQL", () => {
  expect(listed(sqlOutsideDb(sourceFiles()))).toEqual([]);
});

describe("the check itself finds", () => {
  const bad: [what: string, text: string][] = [
    ["a drizzle statement", "const x = sql`count(*)`;"],
    ["a drizzle statement with a type", "const x = sql<number>`count(*)`;"],
    ["a prepared statement", "const x = connection.prepare(text);"],
    ["a question in SQL", 'const x = "select a, b from part";'],
    ["a question over several lines", "const x = `\n  SELECT a\n  FROM part`;"],
    ["a change in SQL", 'const x = "update part set name = ?";'],
    ["a setting", 'sqlite.pragma("journal_mode = WAL");'],
  ];
  test.each(bad)("%s", (_, text) => {
    expect(sqlOutsideDb([{ path: "app/x/page.tsx", text }]).length).toBeGreaterThan(0);
  });
});

test("the check itself lets words and db pass", () => {
  const words =
    '<option>Select a feature from the list</option>; label("Delete the note"); "Update part"; select(from);';
  expect(listed(sqlOutsideDb([{ path: "app/x/page.tsx", text: words }]))).toEqual([]);
  expect(listed(sqlOutsideDb([{ path: "db/x.ts", text: "sql`count(*)`" }]))).toEqual([]);
});
