import { describe, expect, test } from "vitest";
import { strayImports } from "./imports";
import { listed, sourceFiles } from "./source-files";

test("imports run one way: app to db to lib", () => {
  expect(listed(strayImports(sourceFiles()))).toEqual([]);
});

describe("the check itself finds", () => {
  const bad: [what: string, path: string, text: string][] = [
    ["lib that knows db", "lib/limits/x.ts", 'import { openDatabase } from "../../db/connection";'],
    ["lib that reads files", "lib/limits/x.ts", 'import { readFileSync } from "node:fs";'],
    ["lib with a package of its own choice", "lib/limits/x.ts", 'import { z } from "zod";'],
    ["lib that knows only a type of db", "lib/x.ts", 'import type { Database } from "../db/connection";'],
    ["db that knows app", "db/queries/x.ts", 'import { y } from "../../app/database";'],
    ["a page with SQL packages", "app/x/page.tsx", 'import { eq } from "drizzle-orm";'],
    ["a page with the driver, lazily", "app/x/page.tsx", 'const driver = await import("better-sqlite3");'],
    ["a page that knows seed", "app/x/page.tsx", 'import { demo } from "../../seed/demo";'],
    [
      "a client component with db",
      "app/x/chart.tsx",
      '"use client";\nimport { rows } from "../../db/queries/x";',
    ],
    [
      "a client component with db among types",
      "app/x/chart.tsx",
      '"use client";\nimport { type Row, rows } from "../../db/queries/x";',
    ],
    ["a re-export", "lib/x.ts", 'export { y } from "../db/y";'],
    ["an import over several lines", "lib/x.ts", 'import {\n  a,\n  b,\n} from "../app/x";'],
    ["a bare import", "lib/x.ts", 'import "../app/x";'],
    ["the start command with a package room", "app/start.mjs", 'import { x } from "../lib/x";'],
    ["an extension", "lib/x.ts", 'import { y } from "./y.ts";'],
  ];
  test.each(bad)("%s", (_, path, text) => {
    expect(strayImports([{ path, text }])).toHaveLength(1);
  });
});

describe("the check itself lets pass", () => {
  const good: [what: string, path: string, text: string][] = [
    ["lib with lib", "lib/limits/x.ts", 'import { c4 } from "../constants/c4";'],
    ["lib with arithmetic packages", "lib/x.ts", 'import cdf from "@stdlib/stats-base-dists-t-cdf";'],
    ["a page with db and lib", "app/x/page.tsx", 'import { rows } from "../../db/queries/x";'],
    [
      "a client component with types of db",
      "app/x/chart.tsx",
      '"use client";\nimport type { Row } from "../../db/x";\nimport { type Other } from "../../db/y";',
    ],
    ["a command that loads the demo", "app/cli/verbs/demo.ts", 'import { demo } from "../../../seed/demo";'],
    ["an example in a comment", "lib/x.ts", '/** import { y } from "../db/y"; */\n// import "../db/z";\n'],
  ];
  test.each(good)("%s", (_, path, text) => {
    expect(listed(strayImports([{ path, text }]))).toEqual([]);
  });
});

test("the check names the line", () => {
  const [finding] = strayImports([{ path: "lib/x.ts", text: '// Why.\n\nimport { y } from "../db/y";\n' }]);
  expect(finding?.line).toBe(3);
});
