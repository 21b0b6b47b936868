import { eq, inArray, sql } from "drizzle-orm";
import { type AlarmAct, LONGEST_SHELVING_MS } from "../../lib/alarms/alarm-act";
import {
  type AlarmEvent,
  type AlarmEventKind,
  type EventDetail,
  latestOf,
  tickedSteps,
} from "../../lib/alarms/alarm-event";
import { isOver } from "../../lib/alarms/alarm-state";
import { verificationSince } from "../../lib/alarms/verification";
import { evaluate } from "../../lib/evaluation/evaluate";
import { type RefusalCode, type Refused, refused } from "../../lib/words/refusal";
import type { Connection } from "../connection";
import { readSeries } from "../measurements/store";
import { readDecisions } from "../queries/containment";
import { readFeature } from "../queries/features";
import { setupOf } from "../queries/history";
import { readPlanOfAlarm } from "../queries/reaction-plans";
import { cause, piece } from "../schema";
import { type alarm, containment } from "../schema-alarms";
import { addEvent } from "./alarm-events";
import type { Actor } from "./audit";

type Row = typeof alarm.$inferSelect;
type Given<Act extends AlarmAct["kind"]> = {
  row: Row;
  /** All that happened before. */
  events: readonly AlarmEvent[];
  act: Extract<AlarmAct, { kind: Act }>;
  actor: Actor;
};

type Granted = {
  ok: true;
  event: AlarmEventKind;
  /** As the record names it. */
  action: string;
  detail?: EventDetail;
  changes?: Partial<Pick<Row, "acknowledgedAt" | "shelvedUntil" | "closedAt">>;
};

export type CarriedOut =
  | Refused
  | {
      ok: true;
      eventId: number;
      action: string;
      note: string;
      detail: EventDetail;
      changes: NonNullable<Granted["changes"]>;
    };

/** Checks an act against the alarm as it stands, and appends it to the history; the caller stores the changes. */
export function carryOut(connection: Connection, given: Given<AlarmAct["kind"]>): CarriedOut {
  const { row, act, actor } = given;
  const note = "note" in act ? act.note.trim() : "";
  if (row.closedAt !== null && act.kind !== "reopen" && act.kind !== "note") return refused("alarm-closed");
  const granted = grant(connection, given);
  if (!granted.ok) return granted;
  const detail = granted.detail ?? {};
  const eventId = addEvent(connection, {
    alarmId: row.id,
    at: actor.at,
    kind: granted.event,
    note,
    detail,
    accountId: actor.accountId,
  });
  if (act.kind === "contain") {
    const { decision } = act;
    for (const pieceId of new Set(act.pieceIds))
      connection.orm.insert(containment).values({ alarmId: row.id, eventId, pieceId, decision }).run();
  }
  return { ok: true, eventId, action: granted.action, note, detail, changes: granted.changes ?? {} };
}

function grant(connection: Connection, given: Given<AlarmAct["kind"]>): Granted | Refused {
  const { act } = given;
  const by = <Act extends AlarmAct["kind"]>(own: Extract<AlarmAct, { kind: Act }>) => ({
    ...given,
    act: own,
  });
  switch (act.kind) {
    case "acknowledge":
      return acknowledge(by(act));
    case "step":
      return tick(connection, by(act));
    case "contain":
      return contain(connection, by(act));
    case "cause":
      return nameCause(connection, by(act));
    case "action":
      return said(act.note, "say-what-done", { ok: true, event: "action", action: "write down action" });
    case "note":
      return said(act.note, "say-remark", { ok: true, event: "note", action: "remark on alarm" });
    case "shelve":
      return shelve(by(act));
    case "unshelve":
      return unshelve(by(act));
    case "close":
      return close(connection, by(act));
    case "reopen":
      return reopen(by(act));
  }
}

function acknowledge({ row, actor }: Given<"acknowledge">): Granted | Refused {
  if (row.acknowledgedAt !== null) return refused("alarm-acknowledged");
  return {
    ok: true,
    event: "acknowledged",
    action: "acknowledge alarm",
    changes: { acknowledgedAt: actor.at },
  };
}

function tick(connection: Connection, { row, events, act }: Given<"step">): Granted | Refused {
  const feature = readFeature(connection, row.featureId);
  if (!feature) return refused("alarm-without-feature");
  const plan = readPlanOfAlarm(connection, { reactionPlanId: row.reactionPlanId, kind: feature.kind });
  const words = plan.steps[act.step];
  if (words === undefined) return refused("step-unknown", act.step + 1);
  if (tickedSteps(events).has(act.step) === act.done)
    return refused("step-so-already", act.step + 1, act.done);
  return {
    ok: true,
    event: "step",
    action: act.done ? "tick step" : "untick step",
    detail: { step: act.step, words, done: act.done },
  };
}

/** Most bound values in one statement that SQLite takes is 32,766. */
const MOST_PIECES = 5_000;

function contain(connection: Connection, { row, act }: Given<"contain">): Granted | Refused {
  const ids = [...new Set(act.pieceIds)];
  if (ids.length === 0) return refused("pieces-none");
  if (ids.length > MOST_PIECES) return refused("pieces-many", MOST_PIECES, ids.length);
  const feature = readFeature(connection, row.featureId);
  const pieces = connection.orm
    .select({ id: piece.id, partId: piece.partId })
    .from(piece)
    .where(inArray(piece.id, ids))
    .all();
  if (pieces.length < ids.length || pieces.some(({ partId }) => partId !== feature?.partId))
    return refused("pieces-foreign");
  const now = new Map(readDecisions(connection, row.id).map(({ pieceId, decision }) => [pieceId, decision]));
  if (act.decision === "hold") {
    const held = ids.filter((id) => now.get(id) === "hold").length;
    if (held === ids.length) return refused("pieces-held", held);
  } else {
    const free = ids.filter((id) => now.get(id) !== "hold").length;
    if (free > 0) return refused("pieces-not-held", free);
    if (act.note.trim() === "") return refused("pieces-why", act.decision);
  }
  return {
    ok: true,
    event: act.decision,
    action: `${act.decision} pieces`,
    detail: { pieces: ids.length },
  };
}

function nameCause({ orm }: Connection, { act }: Given<"cause">): Granted | Refused {
  const text = act.cause.trim();
  if (text === "") return refused("cause-empty");
  // A cause typed anew in other letters is the one that is in the list already.
  const known = orm
    .select({ text: cause.text })
    .from(cause)
    .where(eq(sql`lower(${cause.text})`, text.toLowerCase()))
    .get();
  if (!known) orm.insert(cause).values({ text }).run();
  return { ok: true, event: "cause", action: "name cause", detail: { cause: known?.text ?? text } };
}

function shelve({ row, act, actor }: Given<"shelve">): Granted | Refused {
  if (row.shelvedUntil !== null) return refused("shelved-already");
  if (!(act.until > actor.at)) return refused("shelving-past");
  if (act.until - actor.at > LONGEST_SHELVING_MS) return refused("shelving-long", LONGEST_SHELVING_MS);
  return said(act.note, "say-why-wait", {
    ok: true,
    event: "shelved",
    action: "shelve alarm",
    detail: { until: act.until },
    changes: { shelvedUntil: act.until },
  });
}

function unshelve({ row, act }: Given<"unshelve">): Granted | Refused {
  if (row.shelvedUntil === null) return refused("not-shelved");
  return said(act.note, "say-why-early", {
    ok: true,
    event: "unshelved",
    action: "unshelve alarm",
    changes: { shelvedUntil: null },
  });
}

/**
 * Closing wants the feature back to normal, a cause, what was done, and as many good subgroups as the plan asks
 * for; or, with fewer, the reason in words. A withdrawn alarm wants a remark only, for nothing is left to verify.
 */
function close(connection: Connection, { row, events, act, actor }: Given<"close">): Granted | Refused {
  const closed: Granted = {
    ok: true,
    event: "closed",
    action: "close alarm",
    changes: {
      closedAt: actor.at,
      acknowledgedAt: row.acknowledgedAt ?? actor.at,
      shelvedUntil: null,
    },
  };
  if (row.withdrawnAt !== null) return said(act.note, "say-why-changed", closed);
  if (!isOver(row)) return refused("not-normal");
  if (latestOf(events, "cause") === null) return refused("no-cause");
  const action = latestOf(events, "action");
  if (action === null) return refused("no-action");
  const feature = readFeature(connection, row.featureId);
  if (!feature) return closed;
  const plan = readPlanOfAlarm(connection, { reactionPlanId: row.reactionPlanId, kind: feature.kind });
  const history = evaluate(readSeries(connection, feature.id), setupOf(connection, feature));
  const { good, wanted, isEnough } = verificationSince(history, {
    since: Math.max(action.at, row.latestAt),
    wanted: plan.verifySubgroups,
  });
  if (!isEnough && act.note.trim() === "") return refused("not-verified", good, wanted);
  return { ...closed, detail: { good, wanted } };
}

function reopen({ row, act }: Given<"reopen">): Granted | Refused {
  if (row.closedAt === null) return refused("alarm-not-closed");
  return said(act.note, "say-why-reopened", {
    ok: true,
    event: "reopened",
    action: "reopen alarm",
    changes: { closedAt: null },
  });
}

type NoteWanted = Extract<RefusalCode, `say-${string}`>;

function said(note: string, wanted: NoteWanted, granted: Granted): Granted | Refused {
  return note.trim() === "" ? refused(wanted) : granted;
}
