import "server-only";
import { z } from "zod";
import type { Database } from "../../../db/connection";
import { MOST_SHOWN, type ShownWindow } from "../../../lib/chart/shown-window";
import { database } from "../../database";
import { refuse } from "../../intake/respond";
import { words } from "../../language/language";
import { type JudgedFeature, judgedFeature } from "./judged-feature";

/** What a chart shows, and as much on either side. */
const MOST_ASKED = 3 * MOST_SHOWN;

const subgroup = z
  .string()
  .regex(/^\d{1,9}$/)
  .transform(Number);
const Range = z
  .object({ from: subgroup, to: subgroup })
  .refine(({ from, to }) => from <= to && to - from < MOST_ASKED);
const Id = z
  .string()
  .regex(/^\d{1,15}$/)
  .transform(Number);

/** The server stands in the same building: to compress these answers would take longer than to send them. */
const ANSWER = { headers: { "cache-control": "no-store, no-transform" } };

/**
 * The feature of an address and the subgroups `from` and `to` of its query, counted from 0 and cut to what there is; or
 * the answer that refuses. The guard comes before.
 */
export async function askedRange(
  request: Request,
  id: string,
): Promise<
  { database: Database; judged: JudgedFeature; range: ShownWindow; answer: typeof ANSWER } | Response
> {
  const { points: said } = (await words()).features;
  const range = Range.safeParse(Object.fromEntries(new URL(request.url).searchParams));
  if (!range.success) return refuse(400, said.noRange(MOST_ASKED));
  const feature = Id.safeParse(id);
  const db = await database();
  const judged = feature.success ? await judgedFeature(db, feature.data) : null;
  const last = judged ? judged.evaluation.points.count - 1 : -1;
  if (!judged || range.data.from > last) return refuse(404, said.none);
  return {
    database: db,
    judged,
    range: { from: range.data.from, to: Math.min(range.data.to, last) },
    answer: ANSWER,
  };
}
