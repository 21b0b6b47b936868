import { and, desc, eq, isNull, type Placeholder, type SQL, sql } from "drizzle-orm";
import { DEFAULT_REACTIONS, DEFAULT_VERIFY_SUBGROUPS } from "../../lib/alarms/default-reactions";
import { type Connection, connectionOf, type Database, once } from "../connection";
import { account } from "../schema";
import { reactionPlan } from "../schema-alarms";
import type { FeatureRow } from "./features";

/** Whom a plan is for: one feature, or all features of a part that have none of their own. */
export type PlanOwner = { featureId: number } | { partId: number };

export type ReactionPlan = {
  /** Null for the program's own plan, which nobody wrote. */
  id: number | null;
  of: "feature" | "part" | "default";
  version: number;
  steps: readonly string[];
  verifySubgroups: number;
};

export type PlanVersion = ReactionPlan & {
  id: number;
  reason: string;
  writtenAt: number;
  by: string | null;
};

/** The program's own plan for a kind of feature. */
export function defaultPlan(kind: FeatureRow["kind"]): ReactionPlan {
  return {
    id: null,
    of: "default",
    version: 0,
    steps: DEFAULT_REACTIONS[kind],
    verifySubgroups: DEFAULT_VERIFY_SUBGROUPS,
  };
}

type Asked = { id: number; partId: number; kind: FeatureRow["kind"] };

/** What to do on a signal of this feature: its own plan, else its part's, else the program's. */
export async function planInForce(database: Database, feature: Asked): Promise<ReactionPlan> {
  return readPlanInForce(connectionOf(database), feature);
}

/** For functions of db/ that are inside a transaction. */
export function readPlanInForce(connection: Connection, { id, partId, kind }: Asked): ReactionPlan {
  const { ofFeature, ofPart } = latestQueries(connection);
  const latest = inForce(ofFeature.get({ id })) ?? inForce(ofPart.get({ id: partId }));
  return latest ? planFrom(latest) : defaultPlan(kind);
}

/** A version without steps took the plan back. */
function inForce(
  latest: typeof reactionPlan.$inferSelect | undefined,
): typeof reactionPlan.$inferSelect | null {
  return latest && latest.steps.length > 0 ? latest : null;
}

/** Asked of every alarm that is raised. */
const latestQueries = once(({ orm }) => {
  const latest = (owned: SQL | undefined) =>
    orm.select().from(reactionPlan).where(owned).orderBy(desc(reactionPlan.version)).limit(1).prepare();
  const id = sql.placeholder("id");
  return { ofFeature: latest(eq(reactionPlan.featureId, id)), ofPart: latest(planOfPart(id)) };
});

/** The version that an alarm was raised under; its feature's kind tells the default one. */
export async function planOfAlarm(
  database: Database,
  { reactionPlanId, kind }: { reactionPlanId: number | null; kind: FeatureRow["kind"] },
): Promise<ReactionPlan> {
  return readPlanOfAlarm(connectionOf(database), { reactionPlanId, kind });
}

/** For functions of db/ that are inside a transaction. */
export function readPlanOfAlarm(
  { orm }: Connection,
  { reactionPlanId, kind }: { reactionPlanId: number | null; kind: FeatureRow["kind"] },
): ReactionPlan {
  if (reactionPlanId === null) return defaultPlan(kind);
  const row = orm.select().from(reactionPlan).where(eq(reactionPlan.id, reactionPlanId)).get();
  return row ? planFrom(row) : defaultPlan(kind);
}

/** All versions of one plan, the latest first. */
export async function planVersions(database: Database, owner: PlanOwner): Promise<PlanVersion[]> {
  return versionsOf(connectionOf(database), owner);
}

/** For functions of db/ that are inside a transaction. */
export function versionsOf({ orm }: Connection, owner: PlanOwner): PlanVersion[] {
  return orm
    .select({ plan: reactionPlan, by: account.name })
    .from(reactionPlan)
    .leftJoin(account, eq(account.id, reactionPlan.accountId))
    .where("featureId" in owner ? eq(reactionPlan.featureId, owner.featureId) : planOfPart(owner.partId))
    .orderBy(desc(reactionPlan.version))
    .all()
    .map(({ plan, by }) => ({
      ...planFrom(plan),
      id: plan.id,
      reason: plan.reason,
      writtenAt: plan.writtenAt,
      by,
    }));
}

function planOfPart(partId: number | Placeholder) {
  return and(eq(reactionPlan.partId, partId), isNull(reactionPlan.featureId));
}

/** The plans that people wrote and that are in force, by owner: what a list of features shows. */
export async function writtenPlans(
  database: Database,
): Promise<{ byFeature: Map<number, ReactionPlan>; byPart: Map<number, ReactionPlan> }> {
  const byFeature = new Map<number, ReactionPlan>();
  const byPart = new Map<number, ReactionPlan>();
  const rows = connectionOf(database).orm.select().from(reactionPlan).orderBy(reactionPlan.version).all();
  for (const row of rows) {
    const plans = row.featureId === null ? byPart : byFeature;
    const owner = row.featureId ?? row.partId;
    if (owner === null) continue;
    if (row.steps.length === 0) plans.delete(owner);
    else plans.set(owner, planFrom(row));
  }
  return { byFeature, byPart };
}

function planFrom(row: typeof reactionPlan.$inferSelect): ReactionPlan & { id: number } {
  return {
    id: row.id,
    of: row.featureId === null ? "part" : "feature",
    version: row.version,
    steps: row.steps,
    verifySubgroups: row.verifySubgroups,
  };
}
