import { createHash } from "node:crypto";
import type { CodeOf, MeasuredPart, SourceEvent } from "../../lib/drift/measured-part";
import type { SetAside } from "../../lib/drift/set-aside";
import { readToolCode } from "../../lib/drift/tool-code";
import { partName } from "../../lib/format/names";
import { type Connection, connectionOf, type Database, once } from "../connection";
import { lot, source } from "../schema";
import { listFeatures, listParts } from "./features";
import { PlantMemory } from "./plant-memory";
import { sourceEvents } from "./sources";

/** All that the source scan takes in, and `mark`, which is another as soon as any of it is. */
export type MeasuredPlant = {
  parts: MeasuredPart[];
  /** Of each part, in time. */
  partLots: { part: string; lots: string[] }[];
  codeOf: CodeOf;
  events: SourceEvent[];
  measurements: number;
  mark: string;
};

/** Raised when the same measurements would be scanned otherwise or the result is stored in another form. */
const SCAN_FORMAT = 3;

/**
 * Says which measurements, plan and source events there are without reading them: intakes and events only ever
 * come to more, those under way are named and undone ones counted. One mark, one scan.
 */
export async function plantMark(database: Database): Promise<string> {
  const { counts, plan } = markStatements(connectionOf(database));
  const digest = createHash("sha256");
  for (const row of plan.iterate()) digest.update(JSON.stringify(row));
  return `${SCAN_FORMAT}:${(counts.get() as unknown[]).join(":")}:${digest.digest("hex").slice(0, 16)}`;
}

const markStatements = once(({ sqlite }: Connection) => ({
  counts: sqlite
    .prepare(
      `select (select ifnull(max(id), 0) from intake),
              (select group_concat(id) from intake where ended_at is null),
              (select count(*) from intake where state = 'undone'),
              (select ifnull(max(id), 0) from source_event)`,
    )
    .raw(),
  plan: sqlite
    .prepare(
      `select f.id, p.number, p.revision, f.name, f.kind, f.nominal, f.lower_tolerance, f.upper_tolerance,
              f.natural_bound, f.unit, f.resolution, f.length, ifnull(f.expansion, p.expansion), f.reduced, f.count_chart
       from feature f join part p on p.id = f.part_id order by f.id`,
    )
    .raw(),
}));

/**
 * Every part with the measurements of its last 60 lots as they are charted (at 20 °C where the plan says so), the
 * events logged up to `now`, and the names behind ids. Features that count are left out: a count is no dimension.
 *
 * One part's whole history is in memory at a time; with the `memory` of an earlier reading only what has come since is
 * read. `onPart` hears of each part that is read and may wait.
 */
export async function measuredPlant(
  database: Database,
  {
    now,
    setAside = [],
    memory = new PlantMemory(),
    onPart,
  }: {
    now: number;
    setAside?: readonly SetAside[];
    memory?: PlantMemory;
    onPart?: (done: number, total: number) => void;
  },
): Promise<MeasuredPlant> {
  const mark = await plantMark(database);
  const parts = await listParts(database);
  const codeOf = codesOf(database);
  const read = memory.begin(connectionOf(database));
  const measured: MeasuredPart[] = [];
  const partLots: MeasuredPlant["partLots"] = [];
  let measurements = 0;
  for (const [done, part] of parts.entries()) {
    onPart?.(done, parts.length);
    const features = await listFeatures(database, { partId: part.id });
    const rows = features.filter(({ plan }) => !plan.counts);
    // A part of counts alone has nothing from which lots could be formed.
    if (rows.length === 0) continue;
    const own = read({ part: partName(part), rows, setAside, codeOf });
    if (own.measurements === 0) continue;
    measured.push(own.part);
    partLots.push({ part: own.part.part, lots: own.lots });
    measurements += own.measurements;
  }
  return { parts: measured, partLots, codeOf, events: await eventsUpTo(database, now), measurements, mark };
}

function codesOf(database: Database): CodeOf {
  const { orm } = connectionOf(database);
  const lots = new Map(
    orm
      .select()
      .from(lot)
      .all()
      .map(({ id, code }) => [id, code]),
  );
  const sources = new Map(
    orm
      .select({ id: source.id, code: source.code })
      .from(source)
      .all()
      .map(({ id, code }) => [id, code]),
  );
  return (kind, id) => (kind === "lot" ? lots : sources).get(id) ?? "";
}

/** What was done to sources up to `now`, in time, as the scan takes it. */
export async function eventsUpTo(database: Database, now: number): Promise<SourceEvent[]> {
  const logged = await sourceEvents(database, { to: now });
  return logged
    .map(({ kind, code, at, event }) => ({
      kind,
      source: kind === "tool" ? readToolCode(code).position : code,
      at,
      event,
    }))
    .reverse();
}
