import "server-only";
import type { Database } from "../../db/connection";
import type { AlarmRow } from "../../db/queries/alarms";
import type { BoardRow } from "../../db/queries/board";
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
import { partName } from "../../lib/format/names";
import { dayIn } from "../../lib/format/times";
import type { Words } from "../../lib/words/words";
import { words } from "../language/language";
import { plant } from "../plant";
import { openFlagsShown } from "../shown/lengths";

/** Alarms with the codes of where their first signal came from. */
export type NamedAlarm = AlarmRow & Pick<GroupableAlarm, "from">;

/** Open alarms under the sources that the scan names or that they share. */
export async function groupOpen<Alarm extends NamedAlarm>(
  database: Database,
  { alarms, board }: { alarms: readonly Alarm[]; board: readonly BoardRow[] },
): Promise<AlarmGroup<Alarm>[]> {
  return groupAlarms(alarms, {
    flagged: await flaggedSources(database, board),
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

/** What the scan of all features holds against a source now; a person is never named as one. */
async function flaggedSources(database: Database, board: readonly BoardRow[]): Promise<FlaggedSource[]> {
  const { zone } = await plant();
  const { drift, times } = await words();
  const ids = new Map(board.map(({ feature }) => [`${partName(feature.part)} ${feature.name}`, feature.id]));
  return (await openFlagsShown(database)).flatMap(({ source, latest }) => {
    const kind = GROUPING_KINDS.find((each) => each === source.kind);
    if (!kind) return [];
    const featureIds = latest.features.flatMap(({ part, feature }) => ids.get(`${part} ${feature}`) ?? []);
    return [
      {
        kind,
        code: source.id,
        featureIds,
        since: latest.onset.at,
        sentence: datedSentence(latest, dayIn(latest.onset.at, zone, times), { drift }),
      },
    ];
  });
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
