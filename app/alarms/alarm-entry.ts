import { z } from "zod";
import { type AlarmAct, LONGEST_CAUSE, LONGEST_NOTE } from "../../lib/alarms/alarm-act";
import { ENGLISH, type Words } from "../../lib/words/words";
import { ANOTHER_CAUSE } from "./answer";

export type AlarmEntry = { alarm: number; seen: number; acts: AlarmAct[] };

const id = z.coerce.number().int().nonnegative();
const note = z.string().trim().max(LONGEST_NOTE).default("");
const cause = z.string().trim().max(LONGEST_CAUSE).default("");
const pieces = z.array(z.coerce.number().int().positive());

const FORM = z.discriminatedUnion("do", [
  z.object({ do: z.literal("acknowledge"), note }),
  z.object({ do: z.literal("tick"), step: id }),
  z.object({ do: z.literal("untick"), step: id }),
  z.object({ do: z.enum(["hold", "release", "scrap"]), pieces, note }),
  z.object({ do: z.literal("find"), cause, newCause: cause, note }),
  z.object({ do: z.literal("remark"), note }),
  z.object({ do: z.literal("shelve"), until: z.coerce.number().int(), note }),
  z.object({ do: z.literal("unshelve"), note }),
  z.object({ do: z.literal("close"), note }),
  z.object({ do: z.literal("reopen"), note }),
]);

export type ReadEntry = ({ ok: true } & AlarmEntry) | { ok: false; message: string };

/**
 * Reads a form of the alarm page. Its button says what to do, as "tick 3" with the step, or "hold all" with
 * every piece listed in `all` instead of those chosen.
 */
export function readAlarmForm(
  form: FormData,
  words: Words["alarms"]["form"] = ENGLISH.alarms.form,
): ReadEntry {
  const [word = "", what = ""] = textOf(form, "do").split(" ");
  const fields = {
    do: word,
    step: what === "" ? undefined : what,
    pieces: form.getAll(what === "all" ? "all" : "pieces"),
    note: textOf(form, "note"),
    cause: textOf(form, "cause"),
    newCause: textOf(form, "newCause"),
    until: textOf(form, "until"),
  };
  const whose = z
    .object({ alarm: id, seen: id })
    .safeParse({ alarm: form.get("alarm"), seen: form.get("seen") });
  const read = FORM.safeParse(fields);
  if (!whose.success || !read.success) {
    const issue = read.error?.issues.find(({ code }) => code === "too_big");
    return {
      ok: false,
      message: issue?.code === "too_big" ? longWords(issue.maximum, words) : words.incomplete,
    };
  }
  const acts = actsOf(read.data);
  if (acts.length === 0) return { ok: false, message: words.nothing };
  return { ok: true, ...whose.data, acts };
}

function longWords(most: number | bigint, words: Words["alarms"]["form"]): string {
  return Number(most) === LONGEST_CAUSE ? words.longCause(LONGEST_CAUSE) : words.longNote(LONGEST_NOTE);
}

function actsOf(entry: z.infer<typeof FORM>): AlarmAct[] {
  switch (entry.do) {
    case "tick":
    case "untick":
      return [{ kind: "step", step: entry.step, done: entry.do === "tick" }];
    case "hold":
    case "release":
    case "scrap":
      return [{ kind: "contain", decision: entry.do, pieceIds: entry.pieces, note: entry.note }];
    case "find": {
      const named = entry.cause === ANOTHER_CAUSE ? entry.newCause : entry.cause;
      return [
        ...(named === "" ? [] : [{ kind: "cause" as const, cause: named, note: "" }]),
        ...(entry.note === "" ? [] : [{ kind: "action" as const, note: entry.note }]),
      ];
    }
    case "remark":
      return [{ kind: "note", note: entry.note }];
    case "shelve":
      return [{ kind: "shelve", until: entry.until, note: entry.note }];
    default:
      return [{ kind: entry.do, note: entry.note }];
  }
}

function textOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value : "";
}
