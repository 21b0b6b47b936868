import { z } from "zod";
import { DATE_FORMATS, MAPPED_COLUMNS, type MappedColumn, type Mapping } from "../../lib/intake/mapping";

/*
 * What a page may send about a file, and the only place that says so. Texts are as long as a header or a
 * name can sensibly be; whether a column exists is judged against the file itself.
 */

const text = z.string().max(500);
const number = z.number().finite();

const columnRef = z.union([z.strictObject({ column: text }), z.strictObject({ constant: text }), z.null()]);

const columns = z.strictObject(
  Object.fromEntries(MAPPED_COLUMNS.map((column) => [column, columnRef])) as Record<
    MappedColumn,
    typeof columnRef
  >,
);

const valueColumn = z.strictObject({
  column: text,
  feature: text,
  nominal: number.nullable(),
  lower: number.nullable(),
  upper: number.nullable(),
  unit: z.string().max(20).nullable(),
});

export const mappingSchema = z.strictObject({
  name: z.string().max(120),
  layout: z.enum(["long", "wide"]),
  separator: z.enum([",", ";", "\t"]),
  decimal: z.enum([".", ","]),
  encoding: z.enum(["utf-8", "windows-1252", "utf-16"]),
  dateFormat: z.enum(DATE_FORMATS),
  piece: z.array(text).max(8),
  columns,
  // Mappings saved before a time of day could stand in a column of its own have none.
  timeOfDay: text.nullable().default(null),
  valueColumns: z.array(valueColumn).max(2000),
  time: z.strictObject({ start: z.string().max(40), stepSeconds: number.min(0).max(31_536_000) }).nullable(),
  // Mappings saved before a zone could be chosen mean the plant's.
  zone: z.string().max(60).refine(isZone, "is not the name of a time zone").nullable().default(null),
}) satisfies z.ZodType<Mapping>;

export const lookRequest = z.strictObject({ mapping: mappingSchema });

export const commitRequest = z.strictObject({
  mapping: mappingSchema,
  /** Under which name the mapping is kept for files of this layout; empty keeps it for this file only. */
  saveAs: z.string().trim().max(120),
  subgroupSize: z.number().int().min(1).max(1000).nullable(),
});
export type CommitRequest = z.infer<typeof commitRequest>;

/** The name under which the browser knows the file: a label, shown to people and never a path. */
export const fileLabel = z
  .string()
  .transform((name) =>
    name
      .replace(/^.*[/\\]/, "")
      .replace(/\p{C}/gu, " ")
      .trim()
      .slice(0, 200),
  )
  .refine((name) => name !== "", "a file needs a name");

function isZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat("en", { timeZone: name }) !== undefined;
  } catch {
    return false;
  }
}
