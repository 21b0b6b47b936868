import "server-only";
import type { Database } from "../../db/connection";
import { namesOf } from "../../db/queries/history";
import { listSources } from "../../db/queries/sources";
import type { GroupingKind, SourceId } from "../../lib/alarms/group-alarms";

/** "fixture FX-2", "lot L-0231": what a source is called. */
export type SourceNames = (source: SourceId) => string;

/** Codes of all sources, and of the lots that are asked for. */
export async function sourceNames(database: Database, lots: Iterable<number>): Promise<SourceNames> {
  const sources = new Map((await listSources(database)).map(({ id, code }) => [id, code]));
  const lotCodes = await namesOf(database, "lot", lots);
  return ({ kind, id }) =>
    `${KIND_WORDS[kind]} ${(kind === "lot" ? lotCodes : sources).get(id) ?? "not known"}`;
}

const KIND_WORDS: Record<GroupingKind, string> = {
  tool: "tool",
  fixture: "fixture",
  setup: "set-up",
  lot: "lot",
  gauge: "gauge",
  machine: "machine",
};
