import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { createAccount } from "../db/commands/accounts";
import type { Actor } from "../db/commands/audit";
import { scanPlant } from "../db/commands/drift";
import { freezeLimits } from "../db/commands/limits";
import { createFeature, createPart } from "../db/commands/plan";
import { changeSettings } from "../db/commands/settings";
import { addCauses, logSourceEvent } from "../db/commands/sources";
import type { Database } from "../db/connection";
import { importFile } from "../db/intake/import-file";
import { previewFile } from "../db/intake/read-file";
import { listFeatures } from "../db/queries/features";
import { featureHistory } from "../db/queries/history";
import { listSources } from "../db/queries/sources";
import { evaluate } from "../lib/evaluation/evaluate";
import { TRIAL_SUBGROUPS } from "../lib/evaluation/setup";
import { untimedStart } from "../lib/intake/untimed";
import { zoneTable } from "../lib/intake/zone";
import { answerAlarms, signLastHandover } from "./demo/alarm-history";
import { calendarUntil, DEFAULT_ENDS_AT, PLANT_ZONE, SHIFTS } from "./demo/calendar";
import { castingsFile, PORES, PORES_ENTRY } from "./demo/castings";
import { type DemoFile, demoFiles } from "./demo/files";
import { enterGauges } from "./demo/gauges";
import { DEFAULT_SEED } from "./demo/measure";
import { DEMO_ACCOUNTS } from "./demo/people";
import { FEATURES, PARTS, PLANT_NAME, sourceEvents } from "./demo/plant";
import { ASSIGNED_CAUSES } from "./demo/reactions";
import { signStatement } from "./sign-statement";

export type DemoReport = { files: number; measurements: number; features: number; limits: number };

const MINUTE_MS = 60_000;
/** From Monday, seven in the morning, back to Thursday afternoon. */
const THURSDAY_BEFORE_MS = (3 * 24 + 14) * 60 * MINUTE_MS;

/**
 * Loads the demo plant into an empty database, by the roads that people use: the control plan is entered,
 * the files come in through Intake in the order in which they arrived, limits are frozen from the first 25
 * subgroups. The clock is then set to the Monday morning on which the story begins.
 */
export async function loadDemo(
  database: Database,
  { onFile }: { onFile?: (done: number, total: number) => void } = {},
): Promise<DemoReport> {
  const calendar = calendarUntil(DEFAULT_ENDS_AT);
  const start: Actor = { accountId: null, at: calendar.at({ week: 0, shift: 0 }, -60) };
  await changeSettings(database, {
    changes: {
      name: PLANT_NAME,
      zone: PLANT_ZONE,
      shifts: [...SHIFTS],
      demo: true,
      clock: DEFAULT_ENDS_AT + 10 * MINUTE_MS,
    },
    actor: start,
  });
  const files = [...demoFiles(), castingsFile()];
  const people = await enterPeople(database, start);
  await enterPlan(database, start);
  await addCauses(database, ASSIGNED_CAUSES);
  const measurements = await bringFilesIn(database, {
    files,
    accountId: people.engineer ?? null,
    onFile,
  });
  await enterGauges(database, { calendar, accountId: people.engineer ?? null, seed: DEFAULT_SEED });
  await logEvents(database, calendar);
  const limits = await freezeAll(database, people.engineer);
  await scanPlant(database, { now: DEFAULT_ENDS_AT + 10 * MINUTE_MS });
  const { lead = null, engineer = null } = people;
  await answerAlarms(database, { lead, engineer });
  await signLastHandover(database, { lead, engineer });
  await signStatement(database, {
    accountId: people.quality ?? null,
    at: DEFAULT_ENDS_AT - THURSDAY_BEFORE_MS,
  });
  return { files: files.length, measurements, features: FEATURES.length + 1, limits };
}

async function enterPlan(database: Database, actor: Actor): Promise<void> {
  const partIds = new Map<string, number>();
  for (const { number, revision, name, line, material, expansion } of PARTS) {
    const saved = await createPart(database, { number, revision, name, line, material, expansion }, actor);
    if (!saved.ok) throw new Error(saved.message);
    partIds.set(number, saved.id);
  }
  for (const feature of FEATURES) {
    const { tolerance, reduction, target, naturalBound, subgroupSize, chart, rules } = feature.plan;
    const saved = await createFeature(database, {
      partId: partIds.get(feature.part) as number,
      entry: {
        name: feature.name,
        kind: feature.kind,
        nominal: feature.nominal,
        ...tolerance,
        target,
        naturalBound,
        unit: feature.unit,
        resolution: feature.resolution,
        keyCharacteristic: feature.key,
        subgroupSize,
        chart,
        rules,
        length: reduction?.length ?? null,
        expansion: reduction?.expansion ?? null,
        reduced: reduction !== null,
      },
      actor,
    });
    if (!saved.ok) throw new Error(`${feature.part} ${feature.name}: ${saved.message}`);
  }
  const partId = partIds.get(PORES.part) as number;
  const pores = await createFeature(database, { partId, entry: PORES_ENTRY, actor });
  if (!pores.ok) throw new Error(`${PORES.part} ${PORES.name}: ${pores.message}`);
}

async function bringFilesIn(
  database: Database,
  {
    files,
    accountId,
    onFile,
  }: {
    files: readonly DemoFile[];
    accountId: number | null;
    onFile: ((done: number, total: number) => void) | undefined;
  },
): Promise<number> {
  const folder = mkdtempSync(path.join(tmpdir(), "steadyrest-demo-"));
  const zone = zoneTable(PLANT_ZONE);
  let measurements = 0;
  try {
    for (const [done, { name, text }] of files.entries()) {
      onFile?.(done, files.length);
      const at = arrival(text);
      const file = { path: path.join(folder, name), name };
      writeFileSync(file.path, text);
      const { mapping } = await previewFile(file, { zone, mapping: null, rows: 0 });
      const outcome = await importFile(database, {
        path: file.path,
        fileName: name,
        mapping: untimedStart(mapping, at),
        zone,
        newFeatures: { subgroupSize: null },
        actor: { accountId, at },
      });
      measurements += outcome.accepted;
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return measurements;
}

/** A file arrives a quarter of an hour after its last measurement. */
function arrival(text: string): number {
  const lastLine = text.trimEnd().split("\n").at(-1) ?? "";
  const [, takenAt = ""] = lastLine.split(",");
  return Date.parse(takenAt) + 15 * MINUTE_MS;
}

async function logEvents(database: Database, calendar: ReturnType<typeof calendarUntil>): Promise<void> {
  const ids = new Map((await listSources(database)).map(({ id, kind, code }) => [`${kind} ${code}`, id]));
  for (const { source, at, kind, note } of sourceEvents(calendar)) {
    const sourceId = ids.get(`${source.kind} ${source.code}`);
    // A source that measured nothing before the weekend is not in the database yet.
    if (sourceId === undefined || at > DEFAULT_ENDS_AT) continue;
    await logSourceEvent(database, { sourceId, at, event: kind, note, actor: { accountId: null, at } });
  }
}

/** Accounts by login. */
async function enterPeople(database: Database, actor: Actor): Promise<Record<string, number>> {
  const ids: Record<string, number> = {};
  for (const { login, name, roles, password, pin } of DEMO_ACCOUNTS) {
    const saved = await createAccount(database, {
      entry: { login, name, roles, password, ...(pin === undefined ? {} : { pin }), demo: true },
      actor,
    });
    if (!saved.ok) throw new Error(saved.message);
    ids[login] = saved.id;
  }
  return ids;
}

async function freezeAll(database: Database, accountId: number | undefined): Promise<number> {
  let frozen = 0;
  for (const { id } of await listFeatures(database)) {
    const history = await featureHistory(database, id);
    if (!history) continue;
    const { points } = evaluate(history.series, history.setup);
    const baselineTo = points.at[Math.min(TRIAL_SUBGROUPS, points.count) - 1];
    if (baselineTo === undefined) continue;
    const result = await freezeLimits(database, {
      featureId: id,
      baselineFrom: points.at[0] as number,
      baselineTo,
      effectiveFrom: null,
      reason: "First limits, from the first 25 subgroups.",
      actor: { accountId: accountId ?? null, at: baselineTo + 30 * MINUTE_MS },
    });
    if (result.ok) frozen++;
  }
  return frozen;
}
