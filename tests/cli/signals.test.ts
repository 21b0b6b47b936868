import { expect, test } from "vitest";
import reference from "../reference/runrules.json";
import { commandLine } from "./command";

const { run, file } = commandLine();

const signalsOf = async (name: string, rules: string) => {
  const { code, output, errors } = await run("signals", name, "--column", "z", "--rules", rules, "--json");
  expect({ code, errors }).toEqual({ code: 0, errors: "" });
  return (JSON.parse(output) as { signals: { rule: string; at: number; members: number[] }[] }).signals;
};

test("by hand: the second of four points lies beyond three sigma", async () => {
  const name = file("one.csv", "z\n0.5\n3.2\n-0.1\n2.9\n");
  expect(await signalsOf(name, "beyond-3s")).toEqual([{ rule: "beyond-3s", at: 1, members: [1] }]);
});

test("by hand: an empty cell is passed over, and indexes count it", async () => {
  // The points at 1 and 3 are two of the last three that are present: 0, 1 and 3.
  const wide = file("wide.csv", "piece,z\na,0.5\nb,2.2\nc,\nd,2.4\n");
  const narrow = file("narrow.csv", "z\n0.5\n2.2\n\n2.4\n\n\n");
  const expected = [{ rule: "two-of-three-2s", at: 3, members: [1, 3] }];
  expect(await signalsOf(wide, "two-of-three-2s")).toEqual(expected);
  expect(await signalsOf(narrow, "two-of-three-2s")).toEqual(expected);
});

test("by hand: a new phase begins where the value of the column changes", async () => {
  const rows = ["0.5,1", "2.2,1", "2.4,2", "2.1,2"];
  const name = file("phases.csv", `z,phase\n${rows.join("\n")}\n`);
  expect(await signalsOf(name, "two-of-three-2s")).toEqual([
    { rule: "two-of-three-2s", at: 3, members: [2, 3] },
  ]);
});

test("semicolons, quotes, a byte order mark and Windows line ends change nothing", async () => {
  const name = file("mark.csv", '\uFEFF"z";"note"\r\n"3.5";"a; b"\r\n0;c\r\n');
  expect(await signalsOf(name, "beyond-3s")).toEqual([{ rule: "beyond-3s", at: 0, members: [0] }]);
});

test("without signals it says how many points were looked at", async () => {
  const name = file("quiet.csv", "z\n0.5\n-0.5\n");
  const { output } = await run("signals", name, "--column", "z", "--rules", "beyond-3s");
  expect(output).toBe("No signals among 2 points.\n");
});

test.each([
  ["a file that is not there", "absent.csv", undefined, /^absent\.csv: there is no such file\.\n$/],
  ["an empty file", "empty.csv", "", /^empty\.csv: .*empty.*\n$/],
  ["a missing column", "other.csv", "a,b\n1,2\n", /^other\.csv, line 1, field "z": .*a, b.*\n$/],
  ["a column named twice", "twice.csv", "z,z\n1,2\n", /^twice\.csv, line 1, field "z": .*\n$/],
  ["a cell that is no number", "word.csv", "z\n1\nhigh\n", /^word\.csv, line 3, field "z": .*high.*\n$/],
  ["a decimal comma", "comma.csv", "z;n\n1,5;a\n", /^comma\.csv, line 2, field "z": .*decimal mark.*\n$/],
  ["a number that is not finite", "huge.csv", "z\n1e999\n", /^huge\.csv, line 2, field "z": .*\n$/],
  ["a row that ends early", "short.csv", "n,z\na,1\nb\n", /^short\.csv, line 3, field "z": .*\n$/],
  ["a quote never closed", "quote.csv", 'z,n\n1,"a\n', /^quote\.csv: Line 2: .*\n$/],
])("refused, %s: exit 1 and one line that says where and why", async (_, name, text, expected) => {
  if (text !== undefined) file(name, text);
  const { code, output, errors } = await run(
    "signals",
    name,
    "--column",
    "z",
    "--rules",
    "beyond-3s",
    "--json",
  );
  expect(code).toBe(1);
  expect(output).toBe("");
  expect(errors).toMatch(expected);
});

type Fired = { firingIndexes: number[]; members: number[][] };

test(`computed independently, all ${reference.cases.length} cases: ${reference.source}`, async () => {
  // One file: each case and each of its phases is a phase of the whole, and an excluded point an empty cell.
  const rules = Object.keys(reference.rules);
  const rows: string[] = [];
  const begins: number[] = [];
  for (const { id, input } of reference.cases) {
    begins.push(rows.length);
    const excluded = new Set<number>(input.excludedIndexes);
    const starts = new Set<number>(input.phaseStartIndexes);
    let phase = 0;
    input.standardized.forEach((z, i) => {
      if (starts.has(i)) phase++;
      rows.push(`${z === null || excluded.has(i) ? "" : z},${id}/${phase}`);
    });
  }
  const name = file("cases.csv", `z,phase\n${rows.join("\n")}\n`);
  const found = await signalsOf(name, rules.join(","));

  reference.cases.forEach(({ id, expected }, place) => {
    const from = begins[place]!;
    const to = begins[place + 1] ?? rows.length;
    for (const rule of rules) {
      const ours = found.filter((one) => one.rule === rule && one.at >= from && one.at < to);
      const { firingIndexes, members } = (expected as Record<string, Fired>)[rule]!;
      expect({ id, rule, at: ours.map(({ at }) => at - from) }).toEqual({ id, rule, at: firingIndexes });
      expect({ id, rule, members: ours.map((one) => one.members.map((at) => at - from)) }).toEqual({
        id,
        rule,
        members,
      });
    }
  });
  expect(found.length).toBeGreaterThan(100);
});
