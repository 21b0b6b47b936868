"use server";

import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { createGauge, enterStudy, saveGauge, withdrawStudy } from "../../db/commands/gauges";
import { readTable } from "../../db/intake/read-table";
import { featureById } from "../../db/queries/features";
import { gaugeById } from "../../db/queries/gauges";
import { calendarDay } from "../../lib/format/times";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import { converted } from "../../lib/measurement-systems/gauge-share";
import { rowsOfText, type TableRow } from "../../lib/measurement-systems/study-table";
import { UNITS } from "../../lib/plan/feature-plan";
import { refusalIn } from "../../lib/words/refusal";
import { requireAction } from "../access";
import { database } from "../database";
import { answersTo } from "../fittings/entry";
import { words } from "../language/language";
import { plant } from "../plant";
import type { GaugeAnswer, WithdrawAnswer } from "./answers";
import { readGaugeForm } from "./gauge-entry";
import { fieldsOfStudyForm, readStudy, type StudyAnswer, textOfRows } from "./study-entry";

/** Writes what is known of a gauge; without an id in the form it enters a new one. */
export async function saveGaugeRecord(before: GaugeAnswer, form: FormData): Promise<GaugeAnswer> {
  const asker = await requireAction("saveGaugeRecord");
  const language = await words();
  const read = readGaugeForm(form, language);
  const { fields } = read;
  const { refuse, saved: answer } = answersTo(before, fields);
  if (!asker.ok) return refuse(asker.message);
  if (!read.ok) return refuse(language.fittings.seeFields, read.faults);
  const { entry, code } = read;
  const { actor } = asker;
  const db = await database();
  if (!form.has("gauge")) {
    const saved = await createGauge(db, { code, entry, actor });
    if (!saved.ok) return refuse(refusalIn(language, saved.refusal));
    revalidatePath("/gauges");
    redirect(`/gauges/${saved.id}`);
  }
  const saved = await saveGauge(db, { id: Number(form.get("gauge")), entry, actor });
  if (!saved.ok) return refuse(refusalIn(language, saved.refusal));
  revalidatePath("/gauges");
  return answer(language.gauges.answers.saved);
}

/** Keeps a study of a gauge; its table was pasted, typed, or lies in a file. */
export async function enterGaugeStudy(before: StudyAnswer, form: FormData): Promise<StudyAnswer> {
  const asker = await requireAction("enterGaugeStudy");
  const language = await words();
  const { answers: said } = language.gauges;
  const fields = fieldsOfStudyForm(form);
  const attempt = before.attempt + 1;
  const refuse = (message: string, found: Partial<StudyAnswer> = {}): StudyAnswer => ({
    done: false,
    message,
    faults: {},
    tableFaults: [],
    fields,
    attempt,
    ...found,
  });
  if (!asker.ok) return refuse(asker.message);
  const db = await database();
  const gauge = await gaugeById(db, Number(form.get("gauge")));
  if (!gauge) return refuse(said.gone);
  const feature = fields.feature === "" ? null : await featureById(db, Number(fields.feature));

  let rows: TableRow[];
  try {
    rows = await rowsOf(form, fields.table);
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    return refuse(said.unreadable(error.message));
  }
  const { now, zone } = await plant();
  const unit = feature?.unit ?? UNITS.find((one) => one === fields.unit) ?? "none";
  const resolution = gauge.record?.resolution ?? null;
  const read = readStudy(fields, {
    gaugeId: gauge.id,
    resolution: resolution === null ? null : converted(resolution, "mm", unit),
    feature,
    rows,
    today: calendarDay(now, zone),
    words: language,
  });
  // What came from a file stands in the field from now on, where it can be mended.
  const shown = { ...fields, table: textOfRows(rows) };
  if (!read.ok) {
    return refuse(said.marked, { ...read, fields: shown });
  }
  const saved = await enterStudy(db, { entry: read.entry, actor: asker.actor });
  if (!saved.ok) return refuse(refusalIn(language, saved.refusal), { fields: shown });
  revalidatePath("/gauges");
  redirect(`/gauges/studies/${saved.id}`);
}

async function rowsOf(form: FormData, table: string): Promise<TableRow[]> {
  const file = form.get("file");
  if (!(file instanceof File) || file.size === 0) return rowsOfText(table);
  const folder = await mkdtemp(join(tmpdir(), "steadyrest-study-"));
  try {
    const path = join(folder, "table");
    await writeFile(path, Buffer.from(await file.arrayBuffer()));
    return await readTable({ path, name: file.name });
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Takes a study out of force, with the reason why it does not hold. */
export async function withdrawGaugeStudy(_before: WithdrawAnswer, form: FormData): Promise<WithdrawAnswer> {
  const asker = await requireAction("withdrawGaugeStudy");
  if (!asker.ok) return asker;
  const language = await words();
  const because = form.get("because");
  const saved = await withdrawStudy(await database(), {
    id: Number(form.get("study")),
    because: typeof because === "string" ? because.slice(0, 1000) : "",
    actor: asker.actor,
  });
  if (!saved.ok) return { done: false, message: refusalIn(language, saved.refusal) };
  revalidatePath("/gauges");
  return { done: true, message: language.gauges.answers.withdrawn };
}
