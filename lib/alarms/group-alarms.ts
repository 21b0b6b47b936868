import { InvalidInput } from "../checks";
import type { SourceKind } from "../measurements/series";

/** What alarms are grouped under. A person is never offered as a cause. */
export const GROUPING_KINDS = [
  "tool",
  "fixture",
  "setup",
  "lot",
  "gauge",
  "machine",
] as const satisfies readonly (SourceKind | "lot")[];
export type GroupingKind = (typeof GROUPING_KINDS)[number];

export type NamedSource = { kind: GroupingKind; code: string };

export type GroupableAlarm = {
  id: number;
  featureId: number;
  firstAt: number;
  latestAt: number;
  /** Codes of lot and sources of the measurement that completed its first signal, as far as they are stated. */
  from: Partial<Record<GroupingKind, string>>;
};

/** A source that the scan of all features found to have moved, and the features that moved with it. */
export type FlaggedSource = NamedSource &
  FlagSpan & {
    featureIds: readonly number[];
    sentence: string;
  };

/** From when to when a source was held to have moved; `until` is the event that put it right, null while it holds. */
export type FlagSpan = { since: number; until: number | null };

export type AlarmGroup<Alarm> = {
  /** Null for an alarm that shares nothing with another. */
  source: NamedSource | null;
  /** What the scan says of it; null where its alarms merely came together. */
  sentence: string | null;
  /** Whether the scan holds the source to have moved now, did so before it was put right, or never did. */
  suspect: "now" | "before" | "never";
  alarms: Alarm[];
};

/** Alarms of one source follow each other within this. Common practice, no source: a day has all its shifts. */
export const TOGETHER_MS = 24 * 60 * 60 * 1000;

/** A source under which a smaller share of its features signals explains nothing: all of them run on it. */
export const LEAST_SHARE = 0.25;

/**
 * Open alarms by the source that may be behind them: first by what the scan of all features found, then by
 * coincidence.
 *
 * A source that was put right stays the suspect of what came before: of alarms that began until then and gave signals
 * since it had moved. One alarm is enough for a source that the scan names, but two for a lot, which is over by itself.
 *
 * Coincidence: at least two features signalled within a day of each other, and the measurements that completed
 * their first signals share the source. Of several shared sources the one counts that explains most of its own
 * features (a gauge that measures everything explains nothing); of equals the one with more alarms, then the
 * narrower kind. Each alarm is in one group. It is a hint where to look, not a proof. Common practice, no source.
 *
 * Order: groups by their latest alarm, alarms within a group as given.
 *
 * @param featuresOf how many features are made or measured with a source, for its share
 * @throws InvalidInput when an alarm is listed twice
 */
export function groupAlarms<Alarm extends GroupableAlarm>(
  alarms: readonly Alarm[],
  {
    flagged = [],
    featuresOf,
  }: { flagged?: readonly FlaggedSource[]; featuresOf: (source: NamedSource) => number },
): AlarmGroup<Alarm>[] {
  const left = new Set(alarms);
  if (new Set(alarms.map(({ id }) => id)).size < alarms.length)
    throw new InvalidInput("groupAlarms", "alarms", alarms, "each listed once");
  const groups: AlarmGroup<Alarm>[] = [];
  const take = (
    { kind, code }: NamedSource,
    { sentence, suspect }: Pick<AlarmGroup<Alarm>, "sentence" | "suspect">,
    members: readonly Alarm[],
  ) => {
    for (const member of members) left.delete(member);
    groups.push({
      source: { kind, code },
      sentence,
      suspect,
      alarms: alarms.filter((alarm) => members.includes(alarm)),
    });
  };

  for (const source of flagged) {
    const members = [...left].filter(
      (alarm) => source.featureIds.includes(alarm.featureId) && fallsUnder(alarm, source),
    );
    if (distinctFeatures(members) >= (source.kind === "lot" ? 2 : 1))
      take(source, { sentence: source.sentence, suspect: source.until === null ? "now" : "before" }, members);
  }
  for (let best = bestOf([...left], featuresOf); best; best = bestOf([...left], featuresOf))
    take(best.source, { sentence: null, suspect: "never" }, best.members);
  for (const alarm of left) groups.push({ source: null, sentence: null, suspect: "never", alarms: [alarm] });

  return groups.sort((a, b) => latestIn(b) - latestIn(a));
}

/** Whether an alarm gave signals while a source was held to have moved, and began before that was put right. */
export function fallsUnder(
  { firstAt, latestAt }: Pick<GroupableAlarm, "firstAt" | "latestAt">,
  { since, until }: FlagSpan,
): boolean {
  return latestAt >= since && (until === null || firstAt <= until);
}

/** Alarms by their feature, in the order in which the features come, so that each feature is named once. */
export function byFeature(
  alarms: readonly Pick<GroupableAlarm, "id" | "featureId">[],
): Map<number, number[]> {
  const ids = new Map<number, number[]>();
  for (const { id, featureId } of alarms) ids.set(featureId, [...(ids.get(featureId) ?? []), id]);
  return ids;
}

type Candidate<Alarm> = { source: NamedSource; members: Alarm[]; count: number; share: number };

function bestOf<Alarm extends GroupableAlarm>(
  alarms: readonly Alarm[],
  featuresOf: (source: NamedSource) => number,
): Candidate<Alarm> | null {
  let best: Candidate<Alarm> | null = null;
  for (const kind of GROUPING_KINDS) {
    const codes = new Set(alarms.flatMap(({ from }) => from[kind] ?? []));
    for (const code of codes) {
      const sharing = alarms.filter(({ from }) => from[kind] === code);
      for (const members of runsOf(sharing)) {
        const count = distinctFeatures(members);
        const share = count / Math.max(count, featuresOf({ kind, code }));
        if (count < 2 || share < LEAST_SHARE) continue;
        // Kinds come in their order, so that of equals the first stays.
        if (!best || share > best.share || (share === best.share && count > best.count))
          best = { source: { kind, code }, members, count, share };
      }
    }
  }
  return best;
}

/** Alarms in runs whose first signals follow each other within a day. */
function runsOf<Alarm extends GroupableAlarm>(alarms: readonly Alarm[]): Alarm[][] {
  const runs: Alarm[][] = [];
  let last = Number.NEGATIVE_INFINITY;
  for (const alarm of [...alarms].sort((a, b) => a.firstAt - b.firstAt)) {
    if (alarm.firstAt - last > TOGETHER_MS) runs.push([]);
    runs.at(-1)?.push(alarm);
    last = alarm.firstAt;
  }
  return runs;
}

function distinctFeatures(alarms: readonly GroupableAlarm[]): number {
  return new Set(alarms.map(({ featureId }) => featureId)).size;
}

function latestIn({ alarms }: AlarmGroup<GroupableAlarm>): number {
  return Math.max(...alarms.map(({ latestAt }) => latestAt));
}
