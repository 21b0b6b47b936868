import { and, asc, eq, inArray, isNull } from "drizzle-orm";
import { inOrder, picked } from "../../lib/measurements/order";
import type { MeasurementSeries } from "../../lib/measurements/series";
import { type Connection, type Database, write } from "../connection";
import { readSeries, replaceSeries } from "../measurements/store";
import { readFeature } from "../queries/features";
import { correction, intake, intakeFeature } from "../schema";
import { type Actor, record } from "./audit";
import { judgeAnew } from "./judge-feature";

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
    for (const featureId of touchedFeatures(connection, id)) {
      const series = readSeries(connection, featureId);
      const after = withoutIntake(connection, { featureId, series, id });
      removed += series.count - after.series.count;
      restored += after.restored;
      replaceSeries(connection, featureId, after.series);
      const feature = readFeature(connection, featureId);
      if (feature) judgeAnew(connection, { feature, at: actor.at });
    }
    orm
      .update(correction)
      .set({ undoneAt: actor.at })
      .where(and(eq(correction.newIntakeId, id), isNull(correction.undoneAt)))
      .run();
    record(connection, actor, {
      action: "undo intake",
      subject: undone.file,
      after: { id, removed, restored },
    });
    return { ok: true, removed, restored };
  });
}

function touchedFeatures({ orm }: Connection, id: number): number[] {
  const brought = orm
    .select({ featureId: intakeFeature.featureId })
    .from(intakeFeature)
    .where(eq(intakeFeature.intakeId, id))
    .all();
  const corrected = orm
    .selectDistinct({ featureId: correction.featureId })
    .from(correction)
    .where(eq(correction.newIntakeId, id))
    .all();
  return [...new Set([...brought, ...corrected].map((row) => row.featureId))];
}

type Assertion = { intake: number; value: number };

function withoutIntake(
  connection: Connection,
  { featureId, series, id }: { featureId: number; series: MeasurementSeries; id: number },
): { series: MeasurementSeries; restored: number } {
  const corrected = correctedMeasurements(connection, featureId);
  const isUndone = undoneIntakes(connection, corrected);
  const kept: number[] = [];
  let restored = 0;
  for (let i = 0; i < series.count; i++) {
    const said = corrected.get(keyOf(series.takenAt[i] as number, series.piece[i] as number));
    if (!said) {
      if (series.intake[i] !== id) kept.push(i);
      continue;
    }
    const standing = said.filter((assertion) => !isUndone(assertion.intake));
    const last = standing.at(-1);
    if (!last) continue;
    kept.push(i);
    if (series.value[i] !== last.value) restored++;
    series.value[i] = last.value;
    // The measurement belongs to the first intake that still vouches for it.
    series.intake[i] = (standing[0] as Assertion).intake;
  }
  return { series: inOrder(picked(series, kept)), restored };
}

const keyOf = (takenAt: number, piece: number) => `${takenAt}/${piece}`;

/** What the intakes said of each measurement that was ever corrected, in order of arrival. */
function correctedMeasurements({ orm }: Connection, featureId: number): Map<string, Assertion[]> {
  const rows = orm
    .select()
    .from(correction)
    .where(eq(correction.featureId, featureId))
    .orderBy(asc(correction.id))
    .all();
  const said = new Map<string, Assertion[]>();
  for (const row of rows) {
    const key = keyOf(row.takenAt, row.pieceId);
    const assertions = said.get(key) ?? [{ intake: row.oldIntakeId, value: row.oldValue }];
    assertions.push({ intake: row.newIntakeId, value: row.newValue });
    said.set(key, assertions);
  }
  return said;
}

function undoneIntakes({ orm }: Connection, said: Map<string, Assertion[]>): (intakeId: number) => boolean {
  const involved = new Set([...said.values()].flat().map((assertion) => assertion.intake));
  if (involved.size === 0) return () => false;
  const undone = orm
    .select({ id: intake.id })
    .from(intake)
    .where(and(inArray(intake.id, [...involved]), eq(intake.state, "undone")))
    .all();
  const ids = new Set(undone.map((row) => row.id));
  return (intakeId) => ids.has(intakeId);
}
