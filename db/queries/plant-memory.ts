import { type LastLots, withLastLots } from "../../lib/drift/last-lots";
import type { CodeOf, MeasuredFeature, MeasuredPart } from "../../lib/drift/measured-part";
import { type SetAside, withoutSetAside } from "../../lib/drift/set-aside";
import { WINDOW_LOTS } from "../../lib/drift/settings";
import { chartedValues } from "../../lib/evaluation/charted-values";
import { ColumnMaker, columnItself, columnsJoined } from "../../lib/measurements/alike";
import { compareMeasurements, sliced } from "../../lib/measurements/order";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { type Connection, once } from "../connection";
import { tails } from "../measurements/store";
import type { FeatureRow } from "./features";

/** A part as the source scan takes it, with its lots in time. */
export type ReadPart = { part: MeasuredPart; lots: string[]; measurements: number };

/** `mark` says under which plan it was read, and what of it is set aside. */
type Kept = ReadPart & Pick<LastLots, "dropped"> & { mark: string; features: Map<number, MeasurementSeries> };

/** Of each feature, how many measurements were stored since; NaN where some were corrected. */
type News = (feature: number) => number;

type Asked = {
  part: string;
  rows: readonly FeatureRow[];
  setAside: readonly SetAside[];
  codeOf: CodeOf;
};

/**
 * What was read for the scan before, so that a new lot costs the reading of that lot.
 *
 * Intakes tell what has come since: a part without any is the very object of the scan before, and to one with some the
 * new measurements are appended. Where they are not as many as the intakes say, or do not all lie behind what is known
 * (late ones, corrections, an intake undone, another plan), the part is read anew: what is read is the same as without
 * memory.
 */
export class PlantMemory {
  private seen: Seen | null = null;
  private parts = new Map<string, Kept>();

  /** Begins a reading of all parts. Intakes are looked at first, so that what comes meanwhile is news the next time. */
  begin(connection: Connection): (asked: Asked) => ReadPart {
    const { seen: before, parts } = this;
    const now = statementsOf(connection).seen.get() as Seen;
    this.seen = now;
    this.parts = new Map();
    const holds = before !== null && before.undone === now.undone && before.latest <= now.latest;
    const news = holds ? newsSince(connection, before) : null;
    return (asked) => {
      const mark = markOf(asked);
      const last = parts.get(asked.part);
      const kept = last?.mark === mark ? last : null;
      const read = connection.sqlite.transaction(() =>
        partWith(connection, asked, news === null ? null : kept, news),
      )();
      const whole: Kept = { ...read, mark };
      this.parts.set(asked.part, whole);
      return whole;
    };
  }
}

/** Intakes under way may have stored some of their measurements already: they and all later ones are looked at again. */
type Seen = { latest: number; underWay: number | null; undone: number };

const statementsOf = once(({ sqlite }) => ({
  seen: sqlite.prepare(
    `select (select ifnull(max(id), 0) from intake) as latest,
            (select min(id) from intake where ended_at is null) as underWay,
            (select count(*) from intake where state = 'undone') as undone`,
  ),
  brought: sqlite
    .prepare(
      `select value ->> 0, sum(value ->> 1) from intake, json_each(intake.brought)
         where intake.id > ? group by value ->> 0`,
    )
    .raw(),
  corrected: sqlite.prepare("select distinct feature_id from correction where new_intake_id > ?").pluck(),
}));

function newsSince(connection: Connection, { latest, underWay }: Seen): News {
  const { brought, corrected } = statementsOf(connection);
  const since = underWay === null ? latest : Math.min(latest, underWay - 1);
  const rows = new Map(brought.all(since) as [number, number][]);
  for (const feature of corrected.all(since) as number[]) rows.set(feature, Number.NaN);
  return (feature) => rows.get(feature) ?? 0;
}

function markOf({ part, rows, setAside }: Asked): string {
  const plan = rows.map((row) => [row.id, stated(row), row.plan.reduction]);
  return JSON.stringify([part, plan, setAside]);
}

function stated(row: FeatureRow): Omit<MeasuredFeature, "series"> {
  return {
    name: row.name,
    kind: row.kind,
    nominal: row.nominal,
    lower: row.plan.tolerance.lower,
    upper: row.plan.tolerance.upper,
    unit: row.unit,
    resolution: row.resolution,
  };
}

function partWith(
  connection: Connection,
  asked: Asked,
  kept: Kept | null,
  news: News | null,
): Omit<Kept, "mark"> {
  const { part, rows, setAside, codeOf } = asked;
  if (kept !== null && news !== null && rows.every(({ id }) => news(id) === 0)) return kept;
  const appended = kept === null || news === null ? null : appendedTo(kept, news, connection, rows);
  const series = appended ?? wholeSeries(connection, rows);
  const whole = { part, features: rows.map((row, f) => ({ ...stated(row), series: series[f]! })) };
  const last = withLastLots(whole, { windowLots: WINDOW_LOTS, lotCode: (id) => codeOf("lot", id) });
  const scanned = withoutSetAside(last.part, { spans: setAside, codeOf });
  const dropped = appended === null ? last.dropped : new Set([...kept!.dropped, ...last.dropped]);
  return {
    part: scanned,
    lots: last.lots,
    measurements: scanned.features.reduce((sum, feature) => sum + feature.series.count, 0),
    dropped,
    features: new Map(rows.map(({ id }, f) => [id, last.part.features[f]!.series])),
  };
}

function wholeSeries(connection: Connection, rows: readonly FeatureRow[]): MeasurementSeries[] {
  const read = tails(connection);
  const maker = new ColumnMaker(columnItself);
  return rows.map((row) => {
    const series = maker.series(...counted(read(row.id, Number.MIN_SAFE_INTEGER)));
    return { ...series, value: chartedValues(series, row) };
  });
}

function counted(...series: MeasurementSeries[]): [number, MeasurementSeries[]] {
  return [series.reduce((sum, { count }) => sum + count, 0), series];
}

/** What is kept of each feature with what was stored since behind it; null where that is not so. */
function appendedTo(
  { features, dropped }: Kept,
  news: News,
  connection: Connection,
  rows: readonly FeatureRow[],
): MeasurementSeries[] | null {
  const tail = tails(connection);
  const maker = new ColumnMaker(columnsJoined);
  const out: MeasurementSeries[] = [];
  for (const row of rows) {
    const known = features.get(row.id);
    if (known === undefined || known.count === 0) return null;
    if (news(row.id) === 0) {
      out.push(known);
      continue;
    }
    const last = known.takenAt[known.count - 1]!;
    const fresh = behind(known, tail(row.id, last), news(row.id));
    if (fresh === null || fresh.lot.some((lot) => dropped.has(lot))) return null;
    const charted = { ...fresh, value: chartedValues(fresh, row) };
    out.push(maker.series(...counted(known, charted)));
  }
  return out;
}

/** What follows in `tail`, which begins with the last moment of `known`; null where that is not `count` measurements. */
function behind(known: MeasurementSeries, tail: MeasurementSeries, count: number): MeasurementSeries | null {
  const { takenAt } = known;
  let same = 0;
  while (same < known.count && takenAt[known.count - 1 - same] === takenAt[known.count - 1]) same++;
  if (tail.count !== same + count) return null;
  for (let i = 0; i < same; i++) {
    if (compareMeasurements(known, known.count - same + i, tail, i) !== 0) return null;
  }
  return sliced(tail, same, tail.count);
}
