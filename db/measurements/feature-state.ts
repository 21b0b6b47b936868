import type { Progress } from "../../lib/evaluation/progress";
import type { EvaluationSetup } from "../../lib/evaluation/setup";
import { type Standing, standingOf } from "../../lib/evaluation/standing";
import { type Connection, once } from "../connection";

/*
 * A feature's judged state is stored in two rows: what every measurement changes, which is kept small, and
 * what only a complete subgroup changes. Reading puts the two together again.
 */

/** The figures of a standing that every measurement changes; they are in `progress` anyway. */
const OF_EVERY_MEASUREMENT = ["readings", "lastAt", "latest"] as const;

const statementsOf = once(({ sqlite }) => ({
  read: sqlite
    .prepare(
      `select s.progress, t.recent from feature_state s join feature_standing t on t.feature_id = s.feature_id
         where s.feature_id = ?`,
    )
    .raw(),
  saveState: sqlite.prepare(
    `insert into feature_state (feature_id, last_at, progress) values (?, ?, ?)
       on conflict (feature_id) do update set last_at = excluded.last_at, progress = excluded.progress`,
  ),
  readAll: sqlite
    .prepare(
      `select s.feature_id, s.progress, t.standing
         from feature_state s join feature_standing t on t.feature_id = s.feature_id`,
    )
    .raw(),
  readRecent: sqlite.prepare("select recent, standing from feature_standing where feature_id = ?").raw(),
  saveStanding: sqlite.prepare(
    `insert into feature_standing (feature_id, recent, standing) values (?, ?, ?)
       on conflict (feature_id) do update set recent = excluded.recent, standing = excluded.standing`,
  ),
}));

/** What the evaluation remembered when it last judged the feature; null when it never did. */
export function readProgress(connection: Connection, featureId: number): Progress | null {
  const row = statementsOf(connection).read.get(featureId) as [string, string] | undefined;
  return row ? { ...JSON.parse(row[0]), recent: JSON.parse(row[1]) } : null;
}

/**
 * Stores what the evaluation remembers, writing the second row only when it has changed. Where no subgroup was judged
 * since it was stored, as for four of five readings in subgroups of five, the caller says so and it is not looked at:
 * to find that out took some seventh of the processor time of a posted piece.
 */
export function saveProgress(
  connection: Connection,
  featureId: number,
  {
    progress,
    setup,
    judgedNothing = false,
  }: { progress: Progress; setup: EvaluationSetup; judgedNothing?: boolean },
): void {
  const statements = statementsOf(connection);
  const { recent, ...small } = progress;
  statements.saveState.run(featureId, progress.lastAt, JSON.stringify(small));
  if (judgedNothing) return;

  const standing: Partial<Standing> = standingOf(progress, setup);
  for (const name of OF_EVERY_MEASUREMENT) delete standing[name];
  const row = [JSON.stringify(recent), JSON.stringify(standing)];
  const stored = statements.readRecent.get(featureId) as string[] | undefined;
  if (stored?.[0] !== row[0] || stored?.[1] !== row[1]) statements.saveStanding.run(featureId, ...row);
}

/** A standing with the texts that it was read from, by which it is known again. */
export type KnownStanding = { standing: Standing; progress: string; judged: string };

/**
 * Every feature's standing by its id, for the shift board; one read of small rows. One whose texts are still those of
 * `known` is the same object as there: reading and comparing two thousand texts takes a fifth of parsing them.
 */
export function readStandings(
  connection: Connection,
  known: ReadonlyMap<number, KnownStanding> = new Map(),
): Map<number, KnownStanding> {
  const standings = new Map<number, KnownStanding>();
  for (const row of statementsOf(connection).readAll.all() as [number, string, string][]) {
    const [featureId, progress, judged] = row;
    const before = known.get(featureId);
    const isKnown = before?.progress === progress && before.judged === judged;
    standings.set(
      featureId,
      isKnown ? before : { standing: standingFrom(progress, judged), progress, judged },
    );
  }
  return standings;
}

function standingFrom(progress: string, judged: string): Standing {
  const { readings, lastAt, latest } = JSON.parse(progress) as Progress;
  // A figure put into a parsed object costs nothing, where a copy costs as much as the parsing.
  return Object.assign(JSON.parse(judged) as Standing, { readings, lastAt, latest });
}
