import { describe, expect, test } from "vitest";
import { listed, writtenFiles } from "./source-files";
import { bannedWords } from "./wording";

test("no file holds left-over work, silenced checks, tests that do not run, or paths of one machine", () => {
  expect(listed(bannedWords(writtenFiles()))).toEqual([]);
});

describe("the check itself finds", () => {
  // Put together from halves, so that the check does not find this file.
  const bad: [what: string, text: string][] = [
    ["left-over work", `// ${"TO"}${"DO"}: finish this`],
    ["a fault put off", `// ${"FIX"}${"ME"}`],
    ["a silenced type", `// @ts-${"ign"}ore`],
    ["a silenced lint", `// biome-${"ign"}ore lint: why`],
    ["a test that does not run", `test.${"sk"}ip("x", () => {});`],
    ["a test that stops the others", `describe.${"on"}ly("x", () => {});`],
    ["a path of one machine", `const x = "${"/tm"}p/x";`],
    ["a home folder", `const x = "${"/hom"}e/ann/x";`],
    ["a registry", `https://registry.${"npm"}js.org/x`],
    ["a message that says nothing", `throw new Error("${"Oo"}ps");`],
    ["an unknown type", `const x: ${"an"}y = 1;`],
    ["an unknown list", `type X = ${"an"}y[];`],
    ["an unknown cast", `const x = y as ${"an"}y;`],
    ["an unknown argument", `type X = Map<string, ${"an"}y>;`],
  ];
  test.each(bad)("%s", (_, text) => {
    expect(bannedWords([{ path: "lib/x.ts", text }]).length).toBeGreaterThan(0);
  });
});

test("the check itself lets ordinary words pass", () => {
  const text = [
    "/** Works for a list of any: length, any, or none. */",
    'const note = "as any reader sees: any";',
    `const place = join(folder, 'data/${"t"}mp/x');`,
    "if (many[0] && company.any(x)) skip(only);",
  ].join("\n");
  expect(listed(bannedWords([{ path: "lib/x.ts", text }]))).toEqual([]);
});

test("the check names the line", () => {
  const [finding] = bannedWords([{ path: "lib/x.ts", text: `const a = 1;\n// ${"TO"}${"DO"}\n` }]);
  expect(finding?.line).toBe(2);
});
