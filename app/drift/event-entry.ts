import { z } from "zod";
import { SOURCE_EVENTS, type SourceEventKind } from "../../db/queries/sources";
import { zoneTable } from "../../lib/intake/zone";
import { driftPage } from "../../lib/words/en/drift-page";

export type EventFields = Record<"source" | "event" | "when" | "note", string>;

/** What the form shows after it was sent; `attempt` counts, so that fields show what was typed. */
export type EventAnswer = {
  done: boolean;
  message: string;
  faults: Partial<EventFields>;
  fields: EventFields;
  attempt: number;
};

/** What the form that closes a flag shows after it was sent. */
export type CloseAnswer = { done: boolean; message: string; remark: string; attempt: number };

export type EventEntry = { sourceId: number; event: SourceEventKind; at: number; note: string };

const MINUTE_MS = 60_000;

/** A wall time as a browser's field for date and time gives it, with or without seconds. */
const WALL_TIME = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2})?$/;

/** Reads the form; times are those of the plant's clock. Every field that will not do gets its own sentence. */
export function readEventForm(
  form: FormData,
  {
    zone,
    now,
    words: said = driftPage.answers,
  }: { zone: string; now: number; words?: typeof driftPage.answers },
): { fields: EventFields } & ({ ok: true; entry: EventEntry } | { ok: false; faults: Partial<EventFields> }) {
  const text = (name: keyof EventFields) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
  const fields = { source: text("source"), event: text("event"), when: text("when"), note: text("note") };
  const offset = zoneTable(zone);
  const read = z
    .object({
      source: z.coerce
        .number({ error: said.chooseSource })
        .int(said.chooseSource)
        .positive(said.chooseSource),
      event: z.enum(SOURCE_EVENTS, { error: said.chooseWhat }),
      when: z
        .string()
        .regex(WALL_TIME, said.enterTime)
        .transform((wall) => Date.parse(`${wall}Z`))
        .refine(Number.isFinite, said.noSuchTime)
        .transform((localMs) => localMs - MINUTE_MS * offset(localMs))
        .refine((at) => at < now + MINUTE_MS, said.ahead),
      note: z.string().trim().max(500, said.long),
    })
    .safeParse(fields);
  if (read.success) {
    const { source, event, when, note } = read.data;
    return { ok: true, fields, entry: { sourceId: source, event, at: when, note } };
  }
  const faults: Partial<EventFields> = {};
  for (const { path, message } of read.error.issues) faults[path[0] as keyof EventFields] ??= message;
  return { ok: false, fields, faults };
}

/** An instant as a field for date and time wants it, on the plant's clock. */
export function wallTime(at: number, zone: string): string {
  const parts = new Intl.DateTimeFormat("sv-SE", {
    timeZone: zone,
    dateStyle: "short",
    timeStyle: "short",
  }).format(at);
  return parts.replace(" ", "T");
}
