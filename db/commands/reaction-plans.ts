import { eq } from "drizzle-orm";
import { partName } from "../../lib/format/names";
import { type Refused, refused } from "../../lib/words/refusal";
import { type Connection, type Database, write } from "../connection";
import { readFeature } from "../queries/features";
import { type PlanOwner, versionsOf } from "../queries/reaction-plans";
import { part } from "../schema";
import { reactionPlan } from "../schema-alarms";
import { type Actor, record } from "./audit";
import { subjectOf } from "./limits";
import { tell } from "./news";

export type PlanWritten = { ok: true; version: number } | Refused;

const MOST_STEPS = 20;
const MOST_VERIFY = 50;

/**
 * Writes the next version of a reaction plan; earlier ones stay, for alarms were answered by them. No steps take
 * the plan back, so that the part's or the program's own holds again.
 *
 * @param before the version on which the change was made; refused when there is a newer one
 */
export async function writeReactionPlan(
  database: Database,
  {
    owner,
    before,
    steps: given,
    verifySubgroups,
    reason,
    actor,
  }: {
    owner: PlanOwner;
    before: number;
    steps: readonly string[];
    verifySubgroups: number;
    reason: string;
    actor: Actor;
  },
): Promise<PlanWritten> {
  return write(database, (connection) => {
    const subject = subjectOfOwner(connection, owner);
    if (subject === null) return refused("owner-gone");
    const steps = given.map((step) => step.trim()).filter((step) => step !== "");
    if (steps.length > MOST_STEPS) return refused("steps-many", MOST_STEPS, steps.length);
    if (!Number.isInteger(verifySubgroups) || verifySubgroups < 1 || verifySubgroups > MOST_VERIFY)
      return refused("verify-range", MOST_VERIFY, verifySubgroups);
    const [latest] = versionsOf(connection, owner);
    const version = latest?.version ?? 0;
    if (version !== before) {
      return refused("plan-newer", latest?.by ?? null, version);
    }
    const row = {
      partId: "partId" in owner ? owner.partId : null,
      featureId: "featureId" in owner ? owner.featureId : null,
      version: version + 1,
      steps,
      verifySubgroups,
      reason: reason.trim(),
      writtenAt: actor.at,
      accountId: actor.accountId,
    };
    connection.orm.insert(reactionPlan).values(row).run();
    record(connection, actor, {
      action: steps.length === 0 ? "take back reaction plan" : "write reaction plan",
      subject,
      before: latest && { version, steps: latest.steps, verifySubgroups: latest.verifySubgroups },
      after: { version: version + 1, steps, verifySubgroups },
      reason: row.reason,
    });
    if ("featureId" in owner) tell(connection, { kind: "feature", featureId: owner.featureId });
    return { ok: true, version: version + 1 };
  });
}

function subjectOfOwner(connection: Connection, owner: PlanOwner): string | null {
  if ("featureId" in owner) {
    const feature = readFeature(connection, owner.featureId);
    return feature && subjectOf(feature);
  }
  const row = connection.orm.select().from(part).where(eq(part.id, owner.partId)).get();
  return row ? partName(row) : null;
}
