import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { QIF_LIMITS, readQif } from "../../../db/intake/qif";
import { previewFile, readMeasurementFile } from "../../../db/intake/read-file";
import type { Cell } from "../../../lib/intake/cells";
import { QIF_COLUMNS } from "../../../lib/intake/qif/qif-document";

const SAMPLES = join(import.meta.dirname, "../../reference/qif");
const PREVIEW = { zone: () => 0, mapping: null, rows: 1000 };

type Row = Record<(typeof QIF_COLUMNS)[number], Cell> & { line: number };
type Read = { rows: Row[]; notices: string[] };
type Expected = {
  linearUnit: string | null;
  rows: {
    serial: string | null;
    item: string;
    kind: string;
    target: string | null;
    max?: string;
    min?: string;
    toleranceValue?: string;
    value: string;
    status: string;
    statusFromTolerance: string;
  }[];
};

let folder = "";
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "steadyrest-qif-"));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function read(path: string): Promise<Read> {
  const found: Read = { rows: [], notices: [] };
  await readQif(path, QIF_LIMITS, {
    onRow(line, cells) {
      if (line === 1) expect(cells).toEqual(QIF_COLUMNS);
      else
        found.rows.push({
          line,
          ...(Object.fromEntries(QIF_COLUMNS.map((column, i) => [column, cells[i] ?? null])) as Omit<
            Row,
            "line"
          >),
        });
    },
    onNotice: ({ message }) => found.notices.push(message),
  });
  return found;
}

function sample(name: string): { path: string; expected: Expected } {
  const expected = JSON.parse(readFileSync(join(SAMPLES, `${name}.expected.json`), "utf8")) as Expected;
  return { path: join(SAMPLES, `${name}.qif`), expected };
}

function file(name: string, content: string | Buffer): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

/** A document of one size (target 10) with the given tolerance and measurements, in the names of QIF 3.0. */
function document(
  tolerance: string,
  measurements: readonly [value: string, status: string][],
  more: { results?: string; units?: string } = {},
): string {
  const rows = measurements
    .map(
      ([value, status], i) =>
        `<DiameterCharacteristicMeasurement id="${100 + i}">
           <Status><CharacteristicStatusEnum>${status}</CharacteristicStatusEnum></Status>
           <CharacteristicItemId>3</CharacteristicItemId>${value === "" ? "" : `<Value>${value}</Value>`}
         </DiameterCharacteristicMeasurement>`,
    )
    .join("");
  return `<?xml version="1.0" encoding="UTF-8"?>
    <q:QIFDocument xmlns:q="http://qifstandards.org/xsd/qif3" versionQIF="3.0.0">
      <Version><TimeCreated>2026-03-02T08:00:00+01:00</TimeCreated></Version>
      ${more.units ?? "<FileUnits><PrimaryUnits><LinearUnit><UnitName>inch</UnitName></LinearUnit></PrimaryUnits></FileUnits>"}
      <Results>
        <MeasurementResultsSet><MeasurementResults id="50">
          <MeasuredCharacteristics><CharacteristicMeasurements>${rows}</CharacteristicMeasurements></MeasuredCharacteristics>
          ${more.results ?? ""}
        </MeasurementResults></MeasurementResultsSet>
        <ActualComponentSets><ActualComponentSet><ActualComponent id="60">
          <SerialNumber>S-7</SerialNumber>
          <Traceability><LotNumber>L-3</LotNumber><FixtureId>FX-2</FixtureId>
            <InspectionEnd>2026-03-02T07:30:00+01:00</InspectionEnd></Traceability>
        </ActualComponent></ActualComponentSet></ActualComponentSets>
      </Results>
      <Characteristics>
        <CharacteristicDefinitions><DiameterCharacteristicDefinition id="1">${tolerance}</DiameterCharacteristicDefinition></CharacteristicDefinitions>
        <CharacteristicNominals><DiameterCharacteristicNominal id="2">
          <CharacteristicDefinitionId>1</CharacteristicDefinitionId><TargetValue>10</TargetValue>
        </DiameterCharacteristicNominal></CharacteristicNominals>
        <CharacteristicItems><DiameterCharacteristicItem id="3"><Name>Bore</Name>
          <CharacteristicNominalId>2</CharacteristicNominalId></DiameterCharacteristicItem></CharacteristicItems>
      </Characteristics>
    </q:QIFDocument>`;
}

const offsets = (least: number, most: number, asLimit: boolean) =>
  `<Tolerance><MaxValue>${most}</MaxValue><MinValue>${least}</MinValue><DefinedAsLimit>${asLimit}</DefinedAsLimit></Tolerance>`;

describe("published: sample documents of the standard's own repository (tests/reference/qif)", () => {
  test.each(["sheet-metal-6-parts", "all-in-one"])("%s: every measurement, in order", async (name) => {
    const { path, expected } = sample(name);
    const { rows } = await read(path);
    expect(rows.map(({ feature, value, piece }) => [feature, value, piece])).toEqual(
      expected.rows.map(({ item, value, serial }) => [item, value, serial ?? ""]),
    );
    expect(new Set(rows.map(({ unit }) => unit))).toEqual(new Set([expected.linearUnit ?? ""]));
    for (const [i, row] of rows.entries()) {
      const { target, max, min, toleranceValue, kind } = expected.rows[i]!;
      expect(row.nominal).toBe(target === null ? null : Number(target));
      if (toleranceValue !== undefined) {
        const zone = Number(toleranceValue);
        expect([row.lower_tolerance, row.upper_tolerance]).toEqual(
          kind === "PointProfile" ? [-zone / 2, zone / 2] : [null, zone],
        );
      } else {
        // 25.399999999999999 ± 0.25: the sums are exact to the last place that fifteen digits have.
        expect(row.lower_tolerance).toBeCloseTo(Number(target) + Number(min), 13);
        expect(row.upper_tolerance).toBeCloseTo(Number(target) + Number(max), 13);
      }
    }
  });

  test("where a stated PASS or FAIL is not what value and tolerance say, it is told and the value stays", async () => {
    const { path, expected } = sample("sheet-metal-6-parts");
    const differing = expected.rows.filter((row) => row.status !== row.statusFromTolerance);
    expect(differing).toHaveLength(5);
    const { notices } = await read(path);
    const told = notices.filter((text) => text.includes("its tolerance says otherwise"));
    expect(told).toHaveLength(5);
    for (const [i, { item, value, status }] of differing.entries())
      expect(told[i]).toContain(`states ${status} for ${value} of “${item}”`);
  });

  test("a stated mean that is not the mean of its measurements is told", async () => {
    const { notices } = await read(sample("all-in-one").path);
    // The document states 25.3441663869135 for the diameters, which is right, and for the sphericities the first value.
    expect(notices.filter((text) => text.includes("a mean of"))).toEqual([
      "the file states a mean of 0.251457258827 for “Sphericity1”; its 2 measurements have 0.151249732963. All statistics are computed anew.",
    ]);
  });

  test("one item measured twice on a piece stays two measurements, through the whole intake path", async () => {
    const { path, expected } = sample("sheet-metal-6-parts");
    const name = "sheet-metal-6-parts.qif";
    const { mapping, problems, accepted, refused } = await previewFile({ path, name }, PREVIEW);
    expect([problems, refused]).toEqual([[], []]);
    expect(accepted[0]).toMatchObject({ piece: "SN5802801", gauge: "CMM" });
    const times = new Set<string>();
    let taken = 0;
    const reading = await readMeasurementFile(
      { path, name },
      mapping,
      { zone: () => 0 },
      {
        batch(batch) {
          for (let i = 0; i < batch.count; i++) times.add(`${batch.feature[i]} ${batch.takenAt[i]}`);
          taken += batch.count;
        },
        refusal: (refusal) => expect.fail(refusal.reason),
        notice: () => {},
      },
    );
    expect([taken, times.size, reading.counts.accepted]).toEqual([228, 228, expected.rows.length]);
  });
});

describe("by hand", () => {
  test("offsets, limits, a zone, and no tolerance at all", async () => {
    const limitsOf = async (tolerance: string) => {
      const [row] = (await read(file("t.qif", document(tolerance, [["10", "PASS"]])))).rows;
      return [row?.lower_tolerance, row?.upper_tolerance];
    };
    expect(await limitsOf(offsets(-0.1, 0.2, false))).toEqual([9.9, 10.2]);
    expect(await limitsOf(offsets(9.9, 10.2, true))).toEqual([9.9, 10.2]);
    expect(await limitsOf("<ToleranceValue>0.4</ToleranceValue>")).toEqual([null, 0.4]);
    expect(await limitsOf("<NonTolerance/>")).toEqual([null, null]);
  });

  test("limits written where the file says offsets: no tolerance is guessed, and it is told once", async () => {
    // As offsets they would mean 19.9 to 20.2, and the stated PASS of 10.0 and 10.1 would both be wrong.
    const contrary = document(offsets(9.9, 10.2, false), [
      ["10.0", "PASS"],
      ["10.1", "PASS"],
    ]);
    const { rows, notices } = await read(file("contrary.qif", contrary));
    expect(rows.map((row) => [row.lower_tolerance, row.upper_tolerance])).toEqual([
      [null, null],
      [null, null],
    ]);
    expect(notices.filter((text) => text.includes("contradicts the file's own PASS and FAIL"))).toHaveLength(
      1,
    );
  });

  test("piece, lot, fixture and time come from what the run refers to, written after it", async () => {
    const results = "<ActualComponentIds><Id>60</Id></ActualComponentIds>";
    const text = document(
      offsets(-1, 1, false),
      [
        ["10", "PASS"],
        ["10.5", "PASS"],
      ],
      { results },
    );
    const { rows, notices } = await read(file("run.qif", text));
    expect(rows[0]).toMatchObject({
      piece: "S-7",
      lot: "L-3",
      fixture: "FX-2",
      unit: "inch",
      feature: "Bore",
    });
    expect(rows.map((row) => row.taken_at)).toEqual([
      "2026-03-02T07:30:00+01:00",
      "2026-03-02T07:30:00.001+01:00",
    ]);
    expect(notices).toEqual([
      "no time is stated for single measurements; they have the time of the piece's inspection, in the order of the file.",
    ]);
  });

  test("the names of version 2.1 are read as well", async () => {
    const old = document(offsets(-1, 1, false), [["10", "PASS"]])
      .replaceAll("MeasurementResults", "MeasurementsResults")
      .replaceAll("DiameterCharacteristicMeasurement", "DiameterCharacteristicActual")
      .replaceAll("CharacteristicMeasurements", "CharacteristicActuals");
    const { rows } = await read(file("old.qif", old));
    expect(rows).toMatchObject([{ feature: "Bore", value: "10", lower_tolerance: 9, upper_tolerance: 11 }]);
  });

  test("UTF-16 is read by its byte order mark", async () => {
    const text = `\ufeff${document(offsets(-1, 1, false), [["10", "PASS"]]).replace("UTF-8", "UTF-16")}`;
    expect((await read(file("wide.qif", Buffer.from(text, "utf16le")))).rows).toHaveLength(1);
  });

  test("a record without a value is refused by name, and the others are taken", async () => {
    const path = file(
      "passed-only.qif",
      document(offsets(-1, 1, false), [
        ["", "PASS"],
        ["10.25", "PASS"],
      ]),
    );
    const { accepted, refused } = await previewFile({ path, name: "passed-only.qif" }, PREVIEW);
    expect(accepted.map(({ value }) => value)).toEqual([10.25]);
    expect(refused).toMatchObject([{ field: "value" }]);
  });
});

describe("what is turned away, in words", () => {
  const refusedWith = async (content: string | Buffer, words: RegExp, name = "bad.qif") => {
    const path = file(name, content);
    await expect(previewFile({ path, name }, PREVIEW)).rejects.toThrow(words);
  };
  const good = document(offsets(-1, 1, false), [["10", "PASS"]]);

  test("entities are not expanded", async () => {
    const bomb = `<?xml version="1.0"?><!DOCTYPE q [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>`;
    await refusedWith(
      bomb + good.slice(good.indexOf("<q:")).replace(">10<", ">&b;<"),
      /no QIF results document|document type declaration/,
    );
    const late = good.replace("<Results>", "<Results>&unknown;");
    await refusedWith(late, /Line 5: this is not well-formed XML \(undefined entity/);
  });

  test("other XML, a plan without results, an unfinished document, wrong bytes, endless nesting", async () => {
    await refusedWith("<html><body>QIFDocument</body></html>", /no QIF results document/);
    await refusedWith(
      document(offsets(-1, 1, false), []),
      /holds no measured characteristics: it describes a part or a plan/,
    );
    await refusedWith(good.slice(0, -40), /not well-formed XML \(.*unclosed tag/);
    await refusedWith(
      Buffer.concat([Buffer.from(good.slice(0, 400)), Buffer.from([0xff, 0xfe, 0xff])]),
      /are not utf-8/,
    );
    await refusedWith(good.replace("<Results>", `<Results>${"<a>".repeat(200)}`), /more than 100 deep/);
    await refusedWith(
      good.replace("<SerialNumber>", `<SerialNumber>${"9".repeat(1_000_001)}`),
      /holds more than 20,000 elements or 1,000,000 characters/,
    );
  });
});
