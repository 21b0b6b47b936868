import { z } from "zod";
import type { PartEntry } from "../../db/commands/plan";
import type { PartRow } from "../../db/queries/features";
import { inField, typedNumber } from "../../lib/format/typed-number";
import type { Words } from "../../lib/words/words";

export type PartFields = Record<
  "number" | "revision" | "name" | "line" | "material" | "expansion" | "reason",
  string
>;

const PER_MILLION = 1e-6;

function fieldsIn(said: Words["plan"]["faults"]) {
  const text = z.string().trim().max(120, said.atMost(120));
  return z.object({
    number: text.min(1, said.partNumber),
    revision: text,
    name: text,
    line: text,
    material: text,
    expansion: z
      .string()
      .max(40)
      .transform((typed, context) => {
        const value = typedNumber(typed);
        if (value === null) return null;
        if (value !== undefined && Math.abs(value) < 1000) return value * PER_MILLION;
        context.addIssue({ code: "custom", message: said.notExpansion(typed) });
        return z.NEVER;
      }),
    reason: z.string().trim().max(500, said.atMost(500)),
  });
}

export type ReadPart =
  | { ok: true; entry: PartEntry; reason: string; fields: PartFields }
  | { ok: false; faults: Partial<Record<keyof PartFields, string>>; fields: PartFields };

export function readPartForm(form: FormData, { faults: said }: Words["plan"]): ReadPart {
  const field = (name: keyof PartFields) => {
    const value = form.get(name);
    return typeof value === "string" ? value : "";
  };
  const fields: PartFields = {
    number: field("number"),
    revision: field("revision"),
    name: field("name"),
    line: field("line"),
    material: field("material"),
    expansion: field("expansion"),
    reason: field("reason"),
  };
  const read = fieldsIn(said).safeParse(fields);
  if (read.success) {
    const { reason, ...entry } = read.data;
    return { ok: true, entry, reason, fields };
  }
  const faults: Partial<Record<keyof PartFields, string>> = {};
  for (const { path, message } of read.error.issues) faults[path[0] as keyof PartFields] ??= message;
  return { ok: false, faults, fields };
}

export function fieldsOfPart(part: PartRow): PartFields {
  const { number, revision, name, line, material, expansion } = part;
  return {
    number,
    revision,
    name,
    line,
    material,
    expansion: expansion === null ? "" : inField(Number((expansion / PER_MILLION).toPrecision(12))),
    reason: "",
  };
}
