import "server-only";
import type { Database } from "../../db/connection";
import type { AlarmRow } from "../../db/queries/alarms";
import type { BoardRow } from "../../db/queries/board";
import type { AnsweredFlag, FlagRow } from "../../db/queries/drift";
import { namesOf } from "../../db/queries/history";
import { listSources } from "../../db/queries/sources";
import {
  type AlarmGroup,
  type FlaggedSource,
  GROUPING_KINDS,
  type GroupableAlarm,
  type GroupingKind,
  groupAlarms,
  type NamedSource,
} from "../../lib/alarms/group-alarms";
import { datedSentence } from "../../lib/drift/flag-words";
import { nameOf } from "../../lib/drift/sentence";
import { partName } from "../../lib/format/names";
import { dayIn, momentIn } from "../../lib/format/times";
import type { Words } from "../../lib/words/words";
import { words } from "../language/language";
import { plant } from "../plant";
import { answeredFlagsShown, openFlagsShown } from "../shown/lengths";

/** Alarms with the codes of where their first signal came from. */
export type NamedAlarm = AlarmRow & Pick<GroupableAlarm, "from">;

/** Open alarms under the sources that the scan names or that they share. */
export async function groupOpen<Alarm extends NamedAlarm>(
  database: Database,
  { alarms, board }: { alarms: readonly Alarm[]; board: readonly BoardRow[] },
): Promise<AlarmGroup<Alarm>[]> {
  return groupAlarms(alarms, {
    flagged: await flaggedSources(database, { alarms, board }),
    featuresOf: featuresPerSource(board, alarms),
  });
}

/** The ids that alarms keep of where they came from, as codes. */
export async function withCodes<Alarm extends AlarmRow>(
  database: Database,
  alarms: readonly Alarm[],
): Promise<(Alarm & NamedAlarm)[]> {
  const sources = new Map((await listSources(database)).map(({ id, code }) => [id, code]));
  const lots = await namesOf(
    database,
    "lot",
    alarms.map(({ origin }) => origin?.lot ?? 0),
  );
  return alarms.map((alarm) => {
    const from: GroupableAlarm["from"] = {};
    for (const kind of GROUPING_KINDS) {
      const code = (kind === "lot" ? lots : sources).get(alarm.origin?.[kind] ?? 0);
      if (code !== undefined) from[kind] = code;
    }
    return { ...alarm, from };
  });
}

/** "fixture FX-2". */
export function sourceWords({ kind, code }: NamedSource, { trade }: Pick<Words, "trade">): string {
  return `${trade.sources[kind]} ${code}`;
}

/**
 * What the scan of all features holds against sources now, then what it held against those that were put right since
 * the first of the alarms; a person is never named as one.
 */
async function flaggedSources(
  database: Database,
  { alarms, board }: { alarms: readonly AlarmRow[]; board: readonly BoardRow[] },
): Promise<FlaggedSource[]> {
  const { zone } = await plant();
  const said = await words();
  const ids = new Map(board.map(({ feature }) => [`${partName(feature.part)} ${feature.name}`, feature.id]));
  const since = alarms.reduce((first, { firstAt }) => Math.min(first, firstAt), Number.MAX_SAFE_INTEGER);
  const flags: (FlagRow | AnsweredFlag)[] = [
    ...(await openFlagsShown(database)),
    ...(await answeredFlagsShown(database, { endedFrom: since })),
  ];
  return flags.flatMap((flag) => {
    const { source, latest } = flag;
    const kind = GROUPING_KINDS.find((each) => each === source.kind);
    if (!kind) return [];
    const featureIds = latest.features.flatMap(({ part, feature }) => ids.get(`${part} ${feature}`) ?? []);
    return [
      {
        kind,
        code: source.id,
        featureIds,
        since: latest.onset.at,
        until: "answer" in flag ? flag.endedAt : null,
        sentence: flagSentence(flag, { zone, said }),
      },
    ];
  });
}

function flagSentence(
  flag: FlagRow | AnsweredFlag,
  { zone, said: { alarms, drift, driftPage, times, trade } }: { zone: string; said: Words },
): string {
  const { source, latest } = flag;
  const sentence = datedSentence(latest, dayIn(latest.onset.at, zone, times), { drift });
  if (!("answer" in flag)) return sentence;
  const suspected = alarms.group.suspected({
    source: nameOf(source, drift),
    lot: latest.onset.lot,
    did: trade.events[flag.answer.event],
    moment: momentIn(flag.endedAt, zone, times),
  });
  return `${suspected} ${driftPage.ended.read(sentence)}`;
}

/**
 * How many features are made or measured with a source, as their latest measurements have it. Lots and fixtures
 * take turns, so for them every feature of the parts that were last made in any counts.
 */
function featuresPerSource(
  board: readonly BoardRow[],
  alarms: readonly NamedAlarm[],
): (source: NamedSource) => number {
  const parts = new Map(board.map(({ feature }) => [feature.id, feature.partId]));
  const codeOf = ({ sources, latestLot }: BoardRow, kind: GroupingKind) =>
    kind === "lot" ? (latestLot ?? undefined) : sources[kind];
  return ({ kind, code }) => {
    if (kind !== "lot" && kind !== "fixture") return board.filter((row) => codeOf(row, kind) === code).length;
    const made = new Set(
      alarms.flatMap(({ featureId, from }) => (from[kind] === code ? (parts.get(featureId) ?? []) : [])),
    );
    return board.filter((row) => made.has(row.feature.partId) && codeOf(row, kind) !== undefined).length;
  };
}
