import { and, asc, type Column, eq, getTableColumns, sql } from "drizzle-orm";
import type {
  AttributeChart,
  ChartKind,
  FeatureKind,
  FeaturePlan,
  KnownUnit,
} from "../../lib/plan/feature-plan";
import { type Connection, connectionOf, type Database, once } from "../connection";
import { feature, part } from "../schema";

export type PartRow = {
  id: number;
  number: string;
  revision: string;
  name: string;
  line: string;
  material: string;
  expansion: number | null;
  features: number;
};

export type FeatureRow = {
  id: number;
  partId: number;
  part: { number: string; revision: string; name: string; line: string; material: string };
  name: string;
  kind: FeatureKind;
  nominal: number | null;
  unit: KnownUnit;
  resolution: number | null;
  keyCharacteristic: boolean;
  /** The least Cpk or Ppk that the plan asks for; null for what is usual (`indexAsked`). */
  indexAsked: number | null;
  /** Length that expands, in mm. */
  length: number | null;
  /** Expansion coefficient per kelvin: the feature's own, else the part's. */
  expansion: number | null;
  /** Whether it is charted at 20 °C, which also needs a length and a coefficient. */
  reduced: boolean;
  /** Standard uncertainties of the part temperature (K) and of the coefficient (1/K); null where not stated. */
  temperatureUncertainty: number | null;
  expansionUncertainty: number | null;
  plan: FeaturePlan;
};

/** Parts by number and revision, with how many features each has. */
export async function listParts(database: Database): Promise<PartRow[]> {
  return connectionOf(database)
    .orm.select({
      id: part.id,
      number: part.number,
      revision: part.revision,
      name: part.name,
      line: part.line,
      material: part.material,
      expansion: part.expansion,
      features: sql<number>`count(${feature.id})`,
    })
    .from(part)
    .leftJoin(feature, eq(feature.partId, part.id))
    .groupBy(part.id)
    .orderBy(asc(part.number), asc(part.revision))
    .all();
}

/** Features by part number, then in the order in which they were entered. */
export async function listFeatures(
  database: Database,
  { partId, line }: { partId?: number; line?: string } = {},
): Promise<FeatureRow[]> {
  const connection = connectionOf(database);
  const query = selectFeatures(connection)
    .where(
      and(
        partId === undefined ? undefined : eq(feature.partId, partId),
        line === undefined ? undefined : eq(part.line, line),
      ),
    )
    .orderBy(asc(part.number), asc(part.revision), asc(feature.id))
    .toSQL();
  const rows = connection.sqlite.prepare(query.sql).raw().all(query.params) as unknown[][];
  return rows.map(featureFrom);
}

/** Null when there is no such feature. */
export async function featureById(database: Database, id: number): Promise<FeatureRow | null> {
  return readFeature(connectionOf(database), id);
}

/** For functions of db/ that are inside a transaction. */
export function readFeature(connection: Connection, id: number): FeatureRow | null {
  return oneFeature(connection)(id);
}

const oneFeature = once((connection) => {
  const query = selectFeatures(connection).where(eq(feature.id, sql.placeholder("id")));
  const statement = connection.sqlite.prepare(query.toSQL().sql).raw();
  return (id: number): FeatureRow | null => {
    const values = statement.get(id) as unknown[] | undefined;
    return values ? featureFrom(values) : null;
  };
});

/**
 * A posted piece asks for each of its fifty features, the shift board for two thousand. So the rows of `selectFeatures`
 * are taken apart here: drizzle looks anew at every row for what each of its 45 columns is, which takes four times as
 * long.
 */
function featureFrom(values: readonly unknown[]): FeatureRow {
  return featureRow({
    feature: objectOf(OF_FEATURE, values, 0),
    part: objectOf(OF_PART, values, OF_FEATURE.length),
  } as Parameters<typeof featureRow>[0]);
}

const [OF_FEATURE, OF_PART] = [
  Object.entries(getTableColumns(feature)),
  Object.entries(getTableColumns(part)),
];

function objectOf(columns: readonly [string, Column][], values: readonly unknown[], from: number) {
  const row: Record<string, unknown> = {};
  for (let i = 0; i < columns.length; i++) {
    const [name, column] = columns[i] as [string, Column];
    const value = values[from + i];
    row[name] = value === null ? null : column.mapFromDriverValue(value);
  }
  return row;
}

function selectFeatures({ orm }: Connection) {
  return orm.select({ feature, part }).from(feature).innerJoin(part, eq(part.id, feature.partId)).$dynamic();
}

function featureRow({
  feature: row,
  part: owner,
}: {
  feature: typeof feature.$inferSelect;
  part: typeof part.$inferSelect;
}): FeatureRow {
  const expansion = row.expansion ?? owner.expansion;
  const { number, revision, name, line, material } = owner;
  return {
    id: row.id,
    partId: row.partId,
    part: { number, revision, name, line, material },
    name: row.name,
    kind: row.kind as FeatureKind,
    nominal: row.nominal,
    unit: row.unit as KnownUnit,
    resolution: row.resolution,
    keyCharacteristic: row.keyCharacteristic,
    indexAsked: row.indexAsked,
    length: row.length,
    expansion,
    reduced: row.reduced,
    temperatureUncertainty: row.temperatureUncertainty,
    expansionUncertainty: row.expansionUncertainty,
    plan: {
      chart: row.chart as ChartKind,
      subgroupSize: row.subgroupSize,
      rules: row.rules,
      tolerance: { lower: row.lowerTolerance, upper: row.upperTolerance },
      target: row.target,
      naturalBound: row.naturalBound,
      reduction:
        row.reduced && row.length !== null && expansion !== null ? { length: row.length, expansion } : null,
      alsoWatch: row.alsoWatch,
      counts:
        row.countChart === null ? null : { chart: row.countChart as AttributeChart, size: row.countedOn },
    },
  };
}
