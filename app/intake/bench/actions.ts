"use server";

import { revalidatePath } from "next/cache";
import { storeSheet } from "../../../db/intake/store-sheet";
import { listFeatures } from "../../../db/queries/features";
import { partName } from "../../../lib/format/names";
import { zoneTable } from "../../../lib/intake/zone";
import { requireAction } from "../../access";
import { database } from "../../database";
import { plant } from "../../plant";
import { resultWords } from "../result-words";
import { benchFeature } from "./bench-feature";
import { type BenchAnswer, rowsOfSheet, SHEET } from "./entry";

/** Stores a sheet that was typed at the bench, judges it, and answers with the alarms it raised. */
export async function storeBenchSheet(sent: unknown): Promise<BenchAnswer> {
  const asker = await requireAction("storeBenchSheet");
  const refuse = (message: string): BenchAnswer => ({ done: false, message, alarms: [] });
  if (!asker.ok) return refuse(asker.message);
  const read = SHEET.safeParse(sent);
  if (!read.success) {
    const issue = read.error.issues[0];
    return refuse(`Nothing saved: ${issue?.path.join(" ") || "the sheet"} ${issue?.message ?? ""}.`);
  }
  const sheet = read.data;
  const db = await database();
  const features = await listFeatures(db, { partId: sheet.part });
  const [first] = features;
  if (!first) return refuse("Nothing saved: this part has no features any more. Reload the page.");

  const { zone: zoneName, now } = await plant();
  const zone = zoneTable(zoneName);
  const rows = rowsOfSheet(sheet, {
    part: first.part.number,
    features: features.map(benchFeature),
    zone,
    now,
  });
  if (!rows.ok) return refuse(`Nothing saved: ${rows.why}`);
  const stored = await storeSheet(db, {
    rows: rows.rows,
    digest: rows.digest,
    name: `bench, ${partName(first.part)}`,
    zone,
    actor: asker.actor,
  });
  if (!stored.ok) return refuse(stored.message);
  revalidatePath("/intake");
  if (stored.isRepeated)
    return { done: true, message: "Saved already: this sheet was stored before.", alarms: [] };
  const words = resultWords({ ...stored, refused: 0, alarms: stored.alarms.length });
  return { done: true, message: `Saved. ${words}`, alarms: stored.alarms };
}
