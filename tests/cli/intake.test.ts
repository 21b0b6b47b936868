import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { saveMapping } from "../../db/commands/mappings";
import { openDatabase } from "../../db/connection";
import { emptyMapping, type Mapping } from "../../lib/intake/mapping";
import { commandLine } from "./command";
import { minute, type TidyRow, tidyFile } from "./tidy-file";

type Taken = {
  file: string;
  digest: string;
  accepted: number;
  refused: number;
  duplicates: number;
  signals: number;
  alarms: number;
};

const KEYS = ["file", "digest", "accepted", "refused", "duplicates", "signals", "alarms"];

/** Sixty readings of one feature, the last far from the others. */
const ROWS: TidyRow[] = Array.from({ length: 60 }, (_, i) => ({
  piece: `S${i}`,
  taken_at: minute(i),
  part: "P-1",
  feature: "bore",
  nominal: 10,
  lower_tolerance: 9.9,
  upper_tolerance: 10.1,
  unit: "mm",
  value: i === 59 ? 10.09 : 10 + ((i * 7) % 5) / 1000,
}));

const taken = async (cli: ReturnType<typeof commandLine>, ...words: string[]) =>
  (await cli.json<{ files: Taken[] }>("intake", ...words)).files;

describe("a file", () => {
  const cli = commandLine();
  const text = tidyFile(ROWS);
  const digest = createHash("sha256").update(text).digest("hex");

  test("looked at with --dry-run is not stored", async () => {
    const name = cli.file("bore.csv", text);
    for (let time = 0; time < 2; time++) {
      const [bore, ...none] = await taken(cli, name, "--dry-run");
      expect(none).toEqual([]);
      expect(Object.keys(bore!)).toEqual(KEYS);
      expect(bore).toEqual({
        file: "bore.csv",
        digest,
        accepted: 60,
        refused: 0,
        duplicates: 0,
        signals: 0,
        alarms: 0,
      });
    }
    expect(await cli.json("rebuild")).toMatchObject({ features: 0 });
  });

  test("is stored and judged", async () => {
    const [bore] = await taken(cli, cli.file("bore.csv", text));
    expect(Object.keys(bore!)).toEqual(KEYS);
    expect(bore).toMatchObject({ file: "bore.csv", digest, accepted: 60, refused: 0, duplicates: 0 });
    expect(bore!.signals).toBeGreaterThan(0);
    expect(await cli.json("rebuild")).toEqual({
      ok: true,
      features: 1,
      signals: bore!.signals,
      differing: 0,
    });
  });

  test("brought a second time adds nothing and says so", async () => {
    const name = cli.file("again.csv", text);
    const { code, output, errors } = await cli.run("intake", name, "--json");
    expect(code).toBe(0);
    expect(JSON.parse(output)).toEqual({
      files: [{ file: name, digest, accepted: 0, refused: 0, duplicates: 60, signals: 0, alarms: 0 }],
    });
    expect(errors).toMatch(/^again\.csv: The same file [^\n]*60[^\n]*nothing was added\.\n$/);
    const inWords = await cli.run("intake", name);
    expect(inWords.output).toMatch(/^again\.csv: 0 measurements stored, [^\n]*60 there already[^\n]*\n$/);
    expect(await cli.json("rebuild")).toMatchObject({ features: 1, differing: 0 });
  });

  test("with bad rows gives its good ones, and counts the others", async () => {
    const name = cli.file(
      "mixed.csv",
      `part,feature,value,unit\nP-1,depth,1,mm\nP-1,depth,high,mm\nP-1,depth,2,mm\n`,
    );
    const { output, errors } = await cli.start("intake", name, "--dry-run", "--json");
    expect(JSON.parse(output)).toMatchObject({ files: [{ accepted: 2, refused: 1 }] });
    expect(errors).toMatch(/^mixed\.csv, line 3, field "value": [^\n]*high[^\n]*\n$/);
    const [mixed] = await taken(cli, name);
    expect(mixed).toMatchObject({ accepted: 2, refused: 1, duplicates: 0 });
  });

  test("that cannot be read does not keep the others out", async () => {
    const good = cli.file("good.csv", `part,feature,value,unit\nP-1,width,1,mm\n`);
    const bad = cli.file("bad.csv", "P-1,width,1,mm\n");
    const { code, output, errors } = await cli.run("intake", "absent.csv", bad, good, "--json");
    expect(code).toBe(1);
    expect(JSON.parse(output)).toMatchObject({ files: [{ file: "good.csv", accepted: 1 }] });
    const lines = errors.trimEnd().split("\n");
    expect(lines).toHaveLength(2);
    expect(lines[0]).toBe("absent.csv: there is no such file.");
    expect(lines[1]).toMatch(/^bad\.csv, field "header": /);
  });
});

describe("a saved mapping", () => {
  const cli = commandLine();
  const text = "Merkmal;Ist\nBohrung;10,01\nBohrung;10,02\n";

  test("is used by its name", async () => {
    // The first intake makes the database.
    await taken(cli, cli.file("first.csv", tidyFile(ROWS.slice(0, 3))));
    const database = await openDatabase(cli.database());
    // As it was stored before there was a zone or a column of the time of day.
    const { zone: _, timeOfDay: __, ...empty } = emptyMapping("Zelle 4");
    const mapping = {
      ...empty,
      separator: ";",
      decimal: ",",
    } as const;
    await saveMapping(database, {
      mapping: {
        ...mapping,
        columns: {
          ...mapping.columns,
          part: { constant: "Gehäuse" },
          feature: { column: "Merkmal" },
          value: { column: "Ist" },
          unit: { constant: "mm" },
        },
      } as Mapping,
      fingerprint: "none",
      actor: { accountId: null, at: 0 },
    });
    await database.close();

    const [mapped] = await taken(cli, cli.file("cell.csv", text), "--mapping", "Zelle 4");
    expect(mapped).toMatchObject({ accepted: 2, refused: 0 });
    expect(await cli.json("rebuild")).toMatchObject({ features: 2, differing: 0 });
  });

  test("is not needed where a header says which column is the date and which the time of day", async () => {
    const rows = [
      "10,01;02.03.2026;06:10",
      "10,02;02.03.2026;05:50",
      "10,03;02.03.2026;",
      "10,04;32.03.2026;06:20",
    ];
    const file = cli.file(
      "two.csv",
      ["Merkmal;Ist;Datum;Uhrzeit", ...rows.map((row) => `Bohrung;${row}`), ""].join("\n"),
    );
    expect(await taken(cli, file)).toMatchObject([{ accepted: 2, refused: 2 }]);
    // A study wants every row, and says which half of the moment is at fault.
    expect((await cli.run("study", file)).errors).toContain('field "taken_at": The time of day is empty');
  });

  test("that nobody saved is refused by its name", async () => {
    const { code, output, errors } = await cli.run(
      "intake",
      cli.file("cell.csv", text),
      "--mapping",
      "Zelle 5",
      "--json",
    );
    expect({ code, output }).toEqual({ code: 1, output: "" });
    expect(errors).toBe('cell.csv: there is no saved mapping "Zelle 5".\n');
  });
});
