import { words } from "../../language/language";
import "server-only";
import { endShelvings } from "../../../db/commands/alarms";
import {
  type AlarmEventRow,
  type AlarmRow,
  alarmById,
  eventsOfAlarm,
  eventsOfAlarms,
  listAlarms,
} from "../../../db/queries/alarms";
import { decisionsOf, holdsOutstanding, type PieceDecision } from "../../../db/queries/containment";
import { type FeatureHistory, namesOf } from "../../../db/queries/history";
import { planInForce, planOfAlarm, type ReactionPlan } from "../../../db/queries/reaction-plans";
import { listCauses } from "../../../db/queries/sources";
import { latestOf } from "../../../lib/alarms/alarm-event";
import { type AlarmGroup, byFeature } from "../../../lib/alarms/group-alarms";
import { type SuspectPieces, suspectPieces } from "../../../lib/alarms/suspect-pieces";
import { type SuspectSubgroups, suspectSubgroups } from "../../../lib/alarms/suspect-subgroups";
import { type Verification, verificationSince } from "../../../lib/alarms/verification";
import { evaluate } from "../../../lib/evaluation/evaluate";
import type { Evaluation } from "../../../lib/evaluation/evaluation";
import type { ExcursionRule } from "../../../lib/evaluation/progress";
import { partName } from "../../../lib/format/names";
import { database } from "../../database";
import { plant } from "../../plant";
import { boardShown, historyShown } from "../../shown/lengths";
import { groupOpen, sourceWords, withCodes } from "../grouping";

export type ShownAlarm = {
  alarm: AlarmRow;
  history: FeatureHistory;
  evaluation: Evaluation;
  events: AlarmEventRow[];
  /** Id of the last event, which every act of this page carries. */
  seen: number;
  /** What fired, each rule and side once. */
  rules: ExcursionRule[];
  suspect: SuspectSubgroups | null;
  pieces: SuspectPieces | null;
  serials: Map<number, string>;
  /** Codes of the lots and fixtures that the pieces state. */
  origins: { lot: Map<number, string>; fixture: Map<number, string> };
  decisions: Map<number, PieceDecision>;
  /** Other alarms that hold a piece of these, by piece. */
  heldElsewhere: Map<number, number[]>;
  plan: ReactionPlan;
  /** The version now in force, when it is another than the alarm's. */
  newerPlan: ReactionPlan | null;
  verification: Verification;
  causes: string[];
  /** Where its first signal came from, in words. */
  origin: string[];
  /** Alarms that this feature had before, the latest first. */
  earlier: { alarm: AlarmRow; events: AlarmEventRow[] }[];
  /** Open alarms that may have the same source, and which. */
  together:
    | ({ features: { name: string; alarms: number[] }[]; source: string } & Pick<
        AlarmGroup<AlarmRow>,
        "sentence" | "suspect"
      >)
    | null;
};

const EARLIER_SHOWN = 5;

/** All that one alarm's page shows; null when there is no such alarm. */
export async function loadAlarm(id: number): Promise<ShownAlarm | null> {
  const db = await database();
  const { now } = await plant();
  await endShelvings(db, { now });
  const alarm = await alarmById(db, id);
  const history = alarm && (await historyShown(db, alarm.featureId));
  if (!alarm || !history) return null;
  const { feature, series, setup } = history;
  const evaluation = evaluate(series, setup);
  const events = await eventsOfAlarm(db, id);
  const suspect = suspectSubgroups(evaluation, alarm);
  const pieces = suspect && suspectPieces(evaluation, series, suspect);
  const decisions = new Map((await decisionsOf(db, id)).map((decision) => [decision.pieceId, decision]));
  const pieceIds = new Set([...(pieces?.pieces.map(({ pieceId }) => pieceId) ?? []), ...decisions.keys()]);
  const plan = await planOfAlarm(db, { reactionPlanId: alarm.reactionPlanId, kind: feature.kind });
  const inForce = await planInForce(db, feature);
  const action = latestOf(events, "action");

  return {
    alarm,
    history,
    evaluation,
    events,
    seen: events.at(-1)?.id ?? 0,
    rules: rulesOf(evaluation, alarm),
    suspect,
    pieces,
    serials: await namesOf(db, "piece", pieceIds),
    origins: {
      lot: await namesOf(db, "lot", pieces?.pieces.map(({ lot }) => lot) ?? []),
      fixture: await namesOf(db, "fixture", pieces?.pieces.map(({ fixture }) => fixture) ?? []),
    },
    decisions,
    heldElsewhere: await heldElsewhere(id, pieceIds),
    plan,
    newerPlan: inForce.id === plan.id ? null : inForce,
    verification: verificationSince(evaluation, {
      since: Math.max(alarm.latestAt, action?.at ?? 0),
      wanted: plan.verifySubgroups,
    }),
    causes: await listCauses(db),
    earlier: await earlierOn(alarm),
    ...(await neighbours(alarm)),
  };
}

function rulesOf({ signals }: Evaluation, { firstAt, latestAt }: AlarmRow): ExcursionRule[] {
  const rules = new Map<string, ExcursionRule>();
  for (const { chart, rule, direction, atTime } of signals)
    if (atTime >= firstAt && atTime <= latestAt)
      rules.set(`${chart} ${rule} ${direction}`, { chart, rule, direction });
  return [...rules.values()];
}

async function heldElsewhere(alarmId: number, pieceIds: ReadonlySet<number>): Promise<Map<number, number[]>> {
  const held = new Map<number, number[]>();
  for (const hold of await holdsOutstanding(await database())) {
    if (hold.alarmId === alarmId || !pieceIds.has(hold.pieceId)) continue;
    held.set(hold.pieceId, [...(held.get(hold.pieceId) ?? []), hold.alarmId]);
  }
  return held;
}

async function earlierOn(alarm: AlarmRow): Promise<ShownAlarm["earlier"]> {
  const db = await database();
  const before = (await listAlarms(db, { featureId: alarm.featureId }))
    .filter(({ id, firstAt }) => id !== alarm.id && firstAt < alarm.firstAt)
    .slice(0, EARLIER_SHOWN);
  const events = await eventsOfAlarms(
    db,
    before.map(({ id }) => id),
  );
  return before.map((each) => ({ alarm: each, events: events.get(each.id) ?? [] }));
}

async function neighbours(alarm: AlarmRow): Promise<Pick<ShownAlarm, "origin" | "together">> {
  const db = await database();
  const said = await words();
  const [named] = await withCodes(db, [alarm]);
  const origin = (["lot", "fixture", "tool", "machine", "gauge"] as const).flatMap((kind) => {
    const code = named?.from[kind];
    return code === undefined ? [] : [sourceWords({ kind, code }, said)];
  });
  const board = await boardShown(db);
  const open = (await listAlarms(db, { open: true })).filter(({ state }) => state !== "shelved");
  const groups = await groupOpen(db, { alarms: await withCodes(db, open), board });
  const group = groups.find(({ alarms }) => alarms.some(({ id }) => id === alarm.id));
  if (!group?.source) return { origin, together: null };
  const others = byFeature(group.alarms.filter(({ id }) => id !== alarm.id));
  const own = board.flatMap(({ feature }) => (others.has(feature.id) ? [feature] : []));
  const features = own.map(({ id, name: short, part }) => {
    const isAlone = own.every((one) => one.id === id || one.name !== short);
    return { name: isAlone ? short : `${short}, ${partName(part)}`, alarms: others.get(id) ?? [] };
  });
  const { sentence, suspect } = group;
  return { origin, together: { features, source: sourceWords(group.source, said), sentence, suspect } };
}
