import { PROGRESS_FORMAT, type Progress } from "../../lib/evaluation/progress";
import { type Connection, once } from "../connection";

const statementsOf = once(({ sqlite }) => ({
  add: sqlite.prepare("insert into waypoint (feature_id, readings, last_at, progress) values (?, ?, ?, ?)"),
  drop: sqlite.prepare("delete from waypoint where feature_id = ? and readings >= ?"),
  lastBefore: sqlite
    .prepare(
      "select progress from waypoint where feature_id = ? and last_at < ? order by readings desc limit 1",
    )
    .pluck(),
}));

/** What the evaluation of a feature remembered at the last waypoint before a moment; null when there is none. */
export function waypointBefore(connection: Connection, featureId: number, at: number): Progress | null {
  const text = statementsOf(connection).lastBefore.get(featureId, at) as string | undefined;
  const found = text === undefined ? null : (JSON.parse(text) as Progress);
  return found?.format === PROGRESS_FORMAT ? found : null;
}

export function addWaypoints(
  connection: Connection,
  featureId: number,
  waypoints: readonly Progress[],
): void {
  const { add } = statementsOf(connection);
  for (const waypoint of waypoints)
    add.run(featureId, waypoint.readings, waypoint.lastAt, JSON.stringify(waypoint));
}

/** Forgets a feature's waypoints from the one after so many measurements on, which is about to be made anew. */
export function dropWaypoints(connection: Connection, featureId: number, readings: number): void {
  statementsOf(connection).drop.run(featureId, readings);
}
