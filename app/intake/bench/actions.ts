"use server";

import { revalidatePath } from "next/cache";
import { storeSheet } from "../../../db/intake/store-sheet";
import { listFeatures } from "../../../db/queries/features";
import { storedExcursionIn } from "../../../lib/evaluation/excursion-words";
import { partName } from "../../../lib/format/names";
import { zoneTable } from "../../../lib/intake/zone";
import { requireAction } from "../../access";
import { database } from "../../database";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { resultWords } from "../result-words";
import { benchFeature } from "./bench-feature";
import { type BenchAnswer, rowsOfSheet, SHEET } from "./entry";

/** Stores a sheet that was typed at the bench, judges it, and answers with the alarms it raised. */
export async function storeBenchSheet(sent: unknown): Promise<BenchAnswer> {
  const asker = await requireAction("storeBenchSheet");
  const refuse = (message: string): BenchAnswer => ({ done: false, message, alarms: [] });
  if (!asker.ok) return refuse(asker.message);
  const language = await words();
  const { answers: said } = language.bench;
  const read = SHEET.safeParse(sent);
  if (!read.success) {
    const issue = read.error.issues[0];
    const { message = "" } = issue ?? {};
    return refuse(
      message === "long" || message === "noTime" || message === "many"
        ? said.notSaved(said.faults[message])
        : said.unreadable(issue?.path.join(" ") || said.theSheet),
    );
  }
  const sheet = read.data;
  const db = await database();
  const features = await listFeatures(db, { partId: sheet.part });
  const [first] = features;
  if (!first) return refuse(said.noFeatures);

  const { zone: zoneName, now } = await plant();
  const zone = zoneTable(zoneName);
  const rows = rowsOfSheet(sheet, {
    part: first.part.number,
    features: features.map(benchFeature),
    zone,
    now,
    words: language,
  });
  if (!rows.ok) return refuse(said.notSaved(rows.why));
  const stored = await storeSheet(db, {
    rows: rows.rows,
    digest: rows.digest,
    name: `bench, ${partName(first.part)}`,
    zone,
    actor: asker.actor,
  });
  if (!stored.ok) return refuse(language.storedTexts.say(stored.message));
  revalidatePath("/intake");
  if (stored.isRepeated) return { done: true, message: said.before, alarms: [] };
  const counts = { ...stored, refused: 0, alarms: stored.alarms.length };
  return {
    done: true,
    message: said.saved(resultWords(counts, language.desk.results)),
    alarms: stored.alarms.map((alarm) => ({
      ...alarm,
      words: storedExcursionIn(alarm.words, language.rules),
    })),
  };
}
