import { describe, expect, test } from "vitest";
import {
  createGauge,
  enterStudy,
  type GaugeEntry,
  type StudyEntry,
  saveGauge,
  withdrawStudy,
} from "../../db/commands/gauges";
import { connectionOf, type Database } from "../../db/connection";
import { listFeatures } from "../../db/queries/features";
import {
  gaugeById,
  gaugedFeatures,
  listGauges,
  listStudies,
  shareOfFeature,
  studyById,
} from "../../db/queries/gauges";
import { featureHistory } from "../../db/queries/history";
import { audit } from "../../db/schema";
import { gaugeBasis } from "../../lib/capability/gauge-basis";
import { type StudyData, studyResult } from "../../lib/measurement-systems/study-data";
import reference from "../reference/gauge-studies.json";
import { bringIn, emptyPlant, SOMEBODY } from "./plant";

const ENTRY: GaugeEntry = {
  what: "height gauge",
  resolution: 0.001,
  errorA: 2,
  errorK: null,
  portable: false,
  calibratedOn: "2025-11-01",
  calibrationDue: "2026-11-01",
  note: "",
};

/** A crossed study of the reference file. */
const CROSSED = reference.cases.find(({ id }) => id === "crossed-good-gauge") as unknown as {
  input: { measurements: number[][][]; toleranceWidth: number };
  expected: { componentsWithInteraction: Components; componentsWithoutInteraction: Components };
};
type Components = { standardDeviations: { gauge: number } };

const DATA: StudyData = {
  kind: "crossed",
  readings: CROSSED.input.measurements.flatMap((row, part) =>
    row.flatMap((cell, operator) =>
      cell.map((value) => ({ part: `${part}`, operator: `${operator}`, value })),
    ),
  ),
};

/** A plant whose one feature, a bore of 10 ± 0.1 mm, is measured with G-1 and, in the second hour, with G-2. */
async function plant(): Promise<{ database: Database; featureId: number; gauges: Record<string, number> }> {
  const database = await emptyPlant();
  const line = (hour: number, gauge: string) =>
    `${new Date(SOMEBODY.at + hour * 3_600_000).toISOString()},P-1,bore,10,9.9,10.1,mm,${10 + hour / 1000},${gauge}`;
  const rows = [line(0, "G-1"), line(1, "G-2"), line(2, "G-1")];
  await bringIn(
    database,
    `taken_at,part,feature,nominal,lower_tolerance,upper_tolerance,unit,value,gauge\n${rows.join("\n")}\n`,
  );
  const [feature] = await listFeatures(database);
  const gauges = Object.fromEntries((await listGauges(database)).map(({ code, id }) => [code, id]));
  return { database, featureId: feature!.id, gauges };
}

function study(changes: Partial<StudyEntry>): StudyEntry {
  return {
    gaugeId: 0,
    featureId: null,
    unit: "mm",
    madeOn: "2026-01-02",
    note: "",
    data: DATA,
    settings: { toleranceWidth: 0.2, resolution: null, confidence: 0.95 },
    ...changes,
  };
}

async function enter(database: Database, changes: Partial<StudyEntry>): Promise<number> {
  const saved = await enterStudy(database, { entry: study(changes), actor: SOMEBODY });
  if (!saved.ok) throw new Error(saved.message);
  return saved.id;
}

async function shareNow(database: Database, featureId: number, window?: { from: number; to: number }) {
  const history = await featureHistory(database, featureId);
  if (!history) throw new Error("no feature");
  const { feature, series } = history;
  return shareOfFeature(database, { feature, series, ...(window && { window }) });
}

function actions(database: Database): string[] {
  return connectionOf(database)
    .orm.select({ action: audit.action })
    .from(audit)
    .all()
    .map(({ action }) => action);
}

describe("records", () => {
  test("a gauge that measurements brought along has none until somebody writes one, and the record keeps both states", async () => {
    const { database, gauges } = await plant();
    const id = gauges["G-1"]!;
    expect((await gaugeById(database, id))?.record).toBeNull();
    expect(await saveGauge(database, { id, entry: ENTRY, actor: SOMEBODY })).toEqual({ ok: true, id });
    await saveGauge(database, { id, entry: { ...ENTRY, errorK: 300 }, actor: SOMEBODY });
    const record = (await gaugeById(database, id))?.record;
    expect(record).toMatchObject({
      what: "height gauge",
      stated: { A: 2, K: 300 },
      calibrationDue: "2026-11-01",
    });
    expect(actions(database).filter((action) => action.endsWith("gauge"))).toEqual([
      "enter gauge",
      "change gauge",
    ]);
  });

  test("a gauge is entered by its code once, and is found by files afterwards", async () => {
    const { database } = await plant();
    expect((await createGauge(database, { code: " G-9 ", entry: ENTRY, actor: SOMEBODY })).ok).toBe(true);
    const again = await createGauge(database, { code: "G-9", entry: ENTRY, actor: SOMEBODY });
    expect(again).toMatchObject({
      ok: false,
      message: expect.stringMatching(/^Nothing saved: there is a gauge G-9/),
    });
    expect((await listGauges(database)).map(({ code }) => code)).toEqual(["G-1", "G-2", "G-9"]);
  });

  test.each<[Partial<GaugeEntry>, string]>([
    [{ resolution: 0 }, "resolution"],
    [{ errorA: -1 }, "at least 0"],
    [{ errorK: 0 }, "above 0"],
    [{ errorA: null, errorK: 300 }, "K alone"],
    [{ calibrationDue: "2025-11-01" }, "due after"],
  ])("refused: %j", async (changes, why) => {
    const { database, gauges } = await plant();
    const saved = await saveGauge(database, {
      id: gauges["G-1"]!,
      entry: { ...ENTRY, ...changes },
      actor: SOMEBODY,
    });
    expect(saved).toMatchObject({ ok: false, message: expect.stringContaining(why) });
    expect((await gaugeById(database, gauges["G-1"]!))?.record).toBeNull();
  });
});

describe("studies", () => {
  test("a study comes back as entered, and its figures can be computed anew", async () => {
    const { database, featureId, gauges } = await plant();
    const id = await enter(database, { gaugeId: gauges["G-1"]!, featureId });
    const stored = await studyById(database, id);
    expect(stored).toMatchObject({
      kind: "crossed",
      madeOn: "2026-01-02",
      feature: { name: "bore" },
      data: DATA,
    });
    const anew = studyResult(stored!.data, stored!.settings);
    expect(anew.ok && JSON.stringify(anew.result)).toBe(JSON.stringify(stored!.result));
    if (stored?.result.kind !== "crossed") throw new Error("kind");
    const { componentsWithInteraction, componentsWithoutInteraction } = CROSSED.expected;
    const theirs = stored.result.study.pooled ? componentsWithoutInteraction : componentsWithInteraction;
    expect(stored.result.study.deviations.grr).toBeCloseTo(theirs.standardDeviations.gauge, 12);
    expect(actions(database)).toContain("enter gauge study");
  });

  test("readings that make no study are refused in words, and nothing is kept", async () => {
    const { database, gauges } = await plant();
    const entry = study({ gaugeId: gauges["G-1"]!, data: { kind: "crossed", readings: [] } });
    const saved = await enterStudy(database, { entry, actor: SOMEBODY });
    expect(saved).toMatchObject({
      ok: false,
      message: "Nothing saved: it has 0 parts, and at least 2 are needed.",
    });
    expect(await listStudies(database)).toEqual([]);
  });

  test("a study in another unit than its feature, or of no gauge, is refused", async () => {
    const { database, featureId, gauges } = await plant();
    for (const changes of [{ gaugeId: gauges["G-1"]!, featureId, unit: "in" as const }, { gaugeId: 999 }]) {
      const saved = await enterStudy(database, { entry: study(changes), actor: SOMEBODY });
      expect(saved).toMatchObject({ ok: false, message: expect.stringMatching(/^Nothing saved: /) });
    }
  });

  test("of one gauge, kind and feature the study made last is in force, in whichever order they are entered", async () => {
    const { database, featureId, gauges } = await plant();
    const of = { gaugeId: gauges["G-1"]!, featureId };
    const newer = await enter(database, { ...of, madeOn: "2026-03-01" });
    const older = await enter(database, { ...of, madeOn: "2026-02-01" });
    const elsewhere = await enter(database, { gaugeId: gauges["G-1"]! });
    const superseded = async (id: number) => (await studyById(database, id))?.supersededBy;
    expect(await Promise.all([newer, older, elsewhere].map(superseded))).toEqual([null, newer, null]);

    const newest = await enter(database, { ...of, madeOn: "2026-04-01" });
    expect(await Promise.all([newest, newer].map(superseded))).toEqual([null, newest]);
  });

  test("a withdrawn study counts no more, keeps its reason, and gives way to the one before", async () => {
    const { database, featureId, gauges } = await plant();
    const of = { gaugeId: gauges["G-1"]!, featureId };
    const first = await enter(database, { ...of, madeOn: "2026-02-01" });
    const second = await enter(database, { ...of, madeOn: "2026-03-01" });
    const refused = await withdrawStudy(database, { id: second, because: " ", actor: SOMEBODY });
    expect(refused).toMatchObject({ ok: false, message: expect.stringMatching(/^Nothing saved: write why/) });
    expect((await withdrawStudy(database, { id: second, because: "worn stylus", actor: SOMEBODY })).ok).toBe(
      true,
    );
    expect(await studyById(database, second)).toMatchObject({ withdrawnBecause: "worn stylus" });
    expect((await studyById(database, first))?.supersededBy).toBeNull();
    expect((await withdrawStudy(database, { id: second, because: "again", actor: SOMEBODY })).ok).toBe(false);
    expect(actions(database)).toContain("withdraw gauge study");
  });
});

describe("what passes on to a feature's capability", () => {
  test("the gauge that takes most of the tolerance counts, and one that is not known leaves the share open", async () => {
    const { database, featureId, gauges } = await plant();
    expect(await shareNow(database, featureId)).toBeNull();
    await saveGauge(database, { id: gauges["G-1"]!, entry: ENTRY, actor: SOMEBODY });
    expect(await shareNow(database, featureId)).toBeNull();
    await saveGauge(database, { id: gauges["G-2"]!, entry: { ...ENTRY, errorA: 5 }, actor: SOMEBODY });
    // By hand: 2E of 0.2 mm is 10 µm of 200 µm.
    const share = await shareNow(database, featureId);
    expect(share?.share).toBeCloseTo(0.05, 12);
    expect(share).toMatchObject({ sigma: null, gauge: { code: "G-2" } });
    expect(share && gaugeBasis(share)).toContain("permissible error of G-2");

    const firstHour = { from: SOMEBODY.at, to: SOMEBODY.at };
    expect((await shareNow(database, featureId, firstHour))?.gauge.code).toBe("G-1");
  });

  test("a study on the feature comes before the permissible error, and says which it was", async () => {
    const { database, featureId, gauges } = await plant();
    for (const id of Object.values(gauges)) await saveGauge(database, { id, entry: ENTRY, actor: SOMEBODY });
    const id = await enter(database, { gaugeId: gauges["G-1"]!, featureId });
    const share = await shareNow(database, featureId);
    const stored = await studyById(database, id);
    if (stored?.result.kind !== "crossed") throw new Error("kind");
    expect(share?.share).toBeCloseTo((6 * stored.result.study.deviations.grr) / 0.2, 10);
    expect(share && gaugeBasis(share)).toBe(
      `From crossed study ${id} of G-1, made 2026-01-02 on this feature.`,
    );
    await withdrawStudy(database, { id, because: "wrong parts", actor: SOMEBODY });
    const left = await shareNow(database, featureId);
    expect(left && gaugeBasis(left)).toContain("permissible error");
  });

  test("a gauge's features are those whose latest measurement it made", async () => {
    const { database, featureId, gauges } = await plant();
    const measured = await gaugedFeatures(database);
    expect(measured.get(gauges["G-1"]!)?.map(({ feature }) => feature.id)).toEqual([featureId]);
    expect(measured.get(gauges["G-2"]!)).toBeUndefined();
  });
});
