import { type AlarmEvent, deedWords, latestOf } from "../../lib/alarms/alarm-event";
import { nextStepWords, shownState } from "../../lib/alarms/alarm-state";
import { verificationSince } from "../../lib/alarms/verification";
import { happenedInShort } from "../../lib/alarms/what-happened";
import { evaluate } from "../../lib/evaluation/evaluate";
import { storedExcursionIn } from "../../lib/evaluation/excursion-words";
import { partName } from "../../lib/format/names";
import {
  flagWords,
  type HandoverContent,
  type HandoverWords,
  type HoldLine,
  joinDeeds,
  type WatchLine,
  watchLines,
} from "../../lib/handover/handover";
import { type PlannedShift, type ShiftSpan, shiftsBetween } from "../../lib/handover/shift-span";
import type { Database } from "../connection";
import { alarmEventsBetween, eventsOfAlarms, listAlarms, rulesOfAlarms } from "./alarms";
import { holdsOutstanding } from "./containment";
import { openFlags } from "./drift";
import { type FeatureRow, listFeatures } from "./features";
import { handoverBefore } from "./handovers";
import { featureHistory } from "./history";
import { measuredBetween } from "./measuring-rate";
import { planOfAlarm } from "./reaction-plans";
import { sourceEvents } from "./sources";

export type WrittenHandover = { span: ShiftSpan; coversFrom: number; content: HandoverContent };

const DAY = 86_400_000;

/**
 * The handover of a shift as it stands now. It covers the shift, and what happened since the one before was signed
 * when that was signed early, so that nothing falls between two.
 */
export async function handoverContent(
  db: Database,
  {
    span,
    now,
    zone,
    shifts,
    words,
  }: {
    span: ShiftSpan;
    now: number;
    zone: string;
    shifts: readonly PlannedShift[];
    /** In what it is written; it is signed so. */
    words: HandoverWords;
  },
): Promise<WrittenHandover> {
  const before = await handoverBefore(db, span.from);
  const coversFrom =
    before && before.shiftTo >= span.from - DAY && before.signedAt < span.from ? before.signedAt : span.from;
  const to = Math.min(span.to, now + 1);
  const features = new Map((await listFeatures(db)).map((feature) => [feature.id, feature]));
  const nameOf = (feature: FeatureRow | undefined) =>
    feature ? `${feature.name}, ${partName(feature.part)}` : words.handover.gone;

  const open = await openAlarms(db, features, words);
  const events = await alarmEventsBetween(db, { from: coversFrom, to });
  const touched = await listAlarms(db, { ids: [...new Set(events.map(({ alarmId }) => alarmId))] });
  const alarms = new Map(touched.map((alarm) => [alarm.id, alarm]));
  const toAlarms = events.flatMap((event) => {
    if (event.by === null) return [];
    const subject = nameOf(features.get(alarms.get(event.alarmId)?.featureId ?? 0));
    const note = event.note === "" ? "" : ` (${event.note})`;
    return [
      {
        at: event.at,
        alarmId: event.alarmId,
        subject,
        by: event.by,
        words: `${shortDeed(event, zone, words)}${note}`,
      },
    ];
  });
  const toSources = (await sourceEvents(db, { from: coversFrom, to: to - 1 })).map(
    ({ at, kind, code, event, note, by }) => ({
      at,
      alarmId: null,
      subject: `${words.trade.sources[kind]} ${code}`,
      by: by ?? words.handover.notStated,
      words: `${words.trade.events[event]}${note === "" ? "" : ` (${note})`}`,
    }),
  );
  const { readings } = await measuredBetween(db, { from: span.from, to: to - 1 });
  const next = shiftsBetween({ from: span.to, to: span.to + DAY, shifts, zone })[0];
  return {
    span,
    coversFrom,
    content: {
      open: open.map(({ alarmId, feature, part, state, words: happened, since, next: wanted }) => ({
        alarmId,
        feature,
        part,
        state,
        words: happened,
        since,
        next: wanted,
      })),
      done: joinDeeds([...toAlarms, ...toSources].sort((a, b) => a.at - b.at)),
      watch: [
        ...watchLines(open, { now, nextEnds: next?.to ?? span.to, zone }, words),
        ...(await flagLines(db, words)),
      ],
      holds: await holdLines(db, features, words),
      raised: events.filter(({ kind }) => kind === "raised").length,
      closed: events.filter(({ kind }) => kind === "closed").length,
      measurements: [...readings.values()].reduce((sum, count) => sum + count, 0),
    },
  };
}

/** Steps stand in the plan; here their number is enough. */
function shortDeed(event: AlarmEvent, zone: string, words: HandoverWords): string {
  return event.kind === "step"
    ? deedWords({ ...event, detail: { ...event.detail, words: "" } }, zone, words).replace(/: $/, "")
    : deedWords(event, zone, words);
}

/** Sources that the scan of all features holds to have moved. */
async function flagLines(db: Database, words: HandoverWords): Promise<WatchLine[]> {
  return (await openFlags(db)).map(({ source, latest }) => ({
    alarmId: null,
    words: flagWords(source, { lot: latest.onset.lot, features: latest.features.length }, words),
  }));
}

async function openAlarms(
  db: Database,
  features: ReadonlyMap<number, FeatureRow>,
  { alarms: said, rules: ruleWords }: HandoverWords,
) {
  const open = await listAlarms(db, { open: true });
  const events = await eventsOfAlarms(
    db,
    open.map(({ id }) => id),
  );
  const rules = await rulesOfAlarms(db, open);
  return Promise.all(
    open.map(async (alarm) => {
      const feature = features.get(alarm.featureId);
      const own = events.get(alarm.id) ?? [];
      const action = latestOf(own, "action");
      const facts = { hasCause: latestOf(own, "cause") !== null, hasAction: action !== null };
      const since = Math.max(alarm.latestAt, action?.at ?? 0);
      return {
        ...alarm,
        ...(await verified(db, alarm, { feature, since })),
        alarmId: alarm.id,
        hasAction: facts.hasAction,
        feature: feature?.name ?? "",
        part: feature ? partName(feature.part) : "",
        state: shownState(alarm),
        words: feature
          ? happenedInShort(
              rules.get(alarm.id) ?? [],
              { chart: feature.plan.chart, words: storedExcursionIn(alarm.words, ruleWords) },
              said.happened,
            )
          : `${storedExcursionIn(alarm.words, ruleWords)}.`,
        since: alarm.firstAt,
        next: nextStepWords({ ...alarm, ...facts }, said),
      };
    }),
  );
}

/** Only an alarm that was seen and is back to normal waits for good subgroups; for others nothing is computed. */
async function verified(
  db: Database,
  alarm: { reactionPlanId: number | null; acknowledgedAt: number | null; returnedAt: number | null },
  { feature, since }: { feature: FeatureRow | undefined; since: number },
): Promise<{ good: number; wanted: number }> {
  if (!feature || alarm.acknowledgedAt === null || alarm.returnedAt === null) return { good: 0, wanted: 0 };
  const plan = await planOfAlarm(db, { reactionPlanId: alarm.reactionPlanId, kind: feature.kind });
  const history = await featureHistory(db, feature.id);
  if (!history) return { good: 0, wanted: 0 };
  return verificationSince(evaluate(history.series, history.setup), { since, wanted: plan.verifySubgroups });
}

async function holdLines(
  db: Database,
  features: ReadonlyMap<number, FeatureRow>,
  { alarms: { card } }: HandoverWords,
): Promise<HoldLine[]> {
  const lines = new Map<number, HoldLine>();
  for (const { alarmId, featureId, serial, at, by } of await holdsOutstanding(db)) {
    const feature = features.get(featureId);
    const line = lines.get(alarmId) ?? {
      alarmId,
      feature: feature ? `${feature.name}, ${partName(feature.part)}` : "",
      serials: [],
      since: at,
      by: by ?? card.somebody,
    };
    line.serials.push(serial);
    lines.set(alarmId, line);
  }
  return [...lines.values()];
}
