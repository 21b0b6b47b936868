import { and, asc, eq, inArray, isNull } from "drizzle-orm";
import { inOrder, picked } from "../../lib/measurements/order";
import { inspectedAt, type MeasurementSeries, noneInspected } from "../../lib/measurements/series";
import { type Connection, type Database, write } from "../connection";
import { latestAt } from "../measurements/feature-state";
import { readSeries, replaceSeries } from "../measurements/store";
import { readFeature } from "../queries/features";
import { correction, intake } from "../schema";
import { type Actor, record } from "./audit";
import { judgeAnew } from "./judge-feature";
import { tell } from "./news";

export type Undone = { ok: true; removed: number; restored: number } | { ok: false; message: string };

/**
 * Takes back what an intake brought: its measurements go, values it corrected come back, and every feature
 * it touched is judged anew. The intake stays in the history as undone, and so do alarms and notes.
 *
 * A measurement that several intakes corrected ends with the value of the latest one that still stands.
 */
export async function undoIntake(
  database: Database,
  { id, actor }: { id: number; actor: Actor },
): Promise<Undone> {
  return write(database, (connection) => {
    const { orm } = connection;
    const undone = orm
      .update(intake)
      .set({ state: "undone", undoneAt: actor.at })
      .where(and(eq(intake.id, id), eq(intake.state, "done")))
      .returning({ file: intake.file })
      .get();
    if (!undone)
      return { ok: false, message: `Nothing changed: intake ${id} is not one that can be undone.` };

    let removed = 0;
    let restored = 0;
    const touched = touchedFeatures(connection, id);
    for (const featureId of touched) {
      const series = readSeries(connection, featureId);
      const after = withoutIntake(connection, { featureId, series, id, at: actor.at });
      removed += series.count - after.series.count;
      restored += after.restored;
      const lastBefore = latestAt(connection, featureId);
      replaceSeries(connection, featureId, after.series);
      const feature = readFeature(connection, featureId);
      if (feature) judgeAnew(connection, { feature, at: actor.at, lastBefore });
    }
    record(connection, actor, {
      action: "undo intake",
      subject: undone.file,
      after: { id, removed, restored },
    });
    tell(connection, { kind: "intake", intakeId: id, featureIds: touched });
    return { ok: true, removed, restored };
  });
}

function touchedFeatures({ orm }: Connection, id: number): number[] {
  const brought = orm
    .select({ brought: intake.brought })
    .from(intake)
    .where(eq(intake.id, id))
    .get()?.brought;
  const corrected = orm
    .selectDistinct({ featureId: correction.featureId })
    .from(correction)
    .where(eq(correction.newIntakeId, id))
    .all();
  return [
    ...new Set([
      ...(brought ?? []).map(([featureId]) => featureId),
      ...corrected.map(({ featureId }) => featureId),
    ]),
  ];
}

type Assertion = { intake: number; value: number; inspected: number | null };
type Chain = { ids: number[]; takenAt: number; piece: number; said: Assertion[] };

/**
 * The feature's measurements without those of the intake. A measurement that several intakes have stated
 * belongs to the first that still stands and has the value of the last.
 */
function withoutIntake(
  connection: Connection,
  { featureId, series, id, at }: { featureId: number; series: MeasurementSeries; id: number; at: number },
): { series: MeasurementSeries; restored: number } {
  const chains = standingChains(connection, featureId);
  const kept: number[] = [];
  let restored = 0;
  for (let i = 0; i < series.count; i++) {
    const chain = chains.get(keyOf(series.takenAt[i] as number, series.piece[i] as number));
    if (!chain) {
      if (series.intake[i] !== id) kept.push(i);
      continue;
    }
    const standing = chain.said.filter((assertion) => assertion.intake !== id);
    if (standing.length < chain.said.length) rechain(connection, { featureId, chain, standing, at });
    const [first] = standing;
    const last = standing.at(-1);
    if (!first || !last) continue;
    kept.push(i);
    const inspected = last.inspected ?? Number.NaN;
    if (series.value[i] !== last.value || !Object.is(inspectedAt(series, i), inspected)) restored++;
    series.value[i] = last.value;
    if (!Number.isNaN(inspected)) series.inspected ??= noneInspected(series.count);
    if (series.inspected !== null) series.inspected[i] = inspected;
    series.intake[i] = first.intake;
  }
  return { series: inOrder(picked(series, kept)), restored };
}

const keyOf = (takenAt: number, piece: number) => `${takenAt}/${piece}`;

/** What the intakes that stand have said of each corrected measurement, in order of arrival. */
function standingChains({ orm }: Connection, featureId: number): Map<string, Chain> {
  const rows = orm
    .select()
    .from(correction)
    .where(and(eq(correction.featureId, featureId), isNull(correction.undoneAt)))
    .orderBy(asc(correction.id))
    .all();
  const chains = new Map<string, Chain>();
  for (const row of rows) {
    const key = keyOf(row.takenAt, row.pieceId);
    const first = { intake: row.oldIntakeId, value: row.oldValue, inspected: row.oldInspected };
    const chain = chains.get(key) ?? { ids: [], takenAt: row.takenAt, piece: row.pieceId, said: [first] };
    chain.ids.push(row.id);
    chain.said.push({ intake: row.newIntakeId, value: row.newValue, inspected: row.newInspected });
    chains.set(key, chain);
  }
  return chains;
}

/**
 * Writes down what is left of a chain of corrections. The lines as they were stay in the record, marked as
 * undone, because an old value is never lost.
 */
function rechain(
  { orm }: Connection,
  {
    featureId,
    chain,
    standing,
    at,
  }: { featureId: number; chain: Chain; standing: readonly Assertion[]; at: number },
): void {
  orm.update(correction).set({ undoneAt: at }).where(inArray(correction.id, chain.ids)).run();
  for (let k = 1; k < standing.length; k++) {
    const before = standing[k - 1] as Assertion;
    const after = standing[k] as Assertion;
    orm
      .insert(correction)
      .values({
        featureId,
        takenAt: chain.takenAt,
        pieceId: chain.piece,
        oldValue: before.value,
        oldIntakeId: before.intake,
        newValue: after.value,
        newIntakeId: after.intake,
        oldInspected: before.inspected,
        newInspected: after.inspected,
        at,
      })
      .run();
  }
}
