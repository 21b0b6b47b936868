import { type Finding, lineOf, type SourceFile } from "./source-files";

const SIGNS: readonly { pattern: RegExp; what: string }[] = [
  { pattern: /\bsql(?:<[^>]*>)?`/g, what: "a drizzle statement" },
  { pattern: /\.prepare\(/g, what: "a prepared statement" },
  { pattern: /\.pragma\(/g, what: "a database setting" },
  {
    pattern:
      /["'`]\s*(select\s[^"'`]*?\sfrom\s|insert\s+into\s|update\s+\w+\s+set\s|delete\s+from\s|(create|drop|alter)\s+(table|index)\s|begin\s+(immediate|exclusive)|pragma\s+\w+)/gi,
    what: "a statement in SQL",
  },
];

/** Signs of SQL outside db/; tests of db may look behind it. */
export function sqlOutsideDb(files: readonly SourceFile[]): Finding[] {
  return files
    .filter(({ path }) => /^(app|lib|seed)\/.*\.(ts|tsx|mjs)$/.test(path))
    .flatMap(({ path, text }) =>
      SIGNS.flatMap(({ pattern, what }) =>
        [...text.matchAll(pattern)].map((match) => ({
          path,
          line: lineOf(text, match.index),
          says: `holds ${what}; only db knows SQL.`,
        })),
      ),
    );
}
