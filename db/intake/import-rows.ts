import type { FileNames, Refusal, TidyBatch } from "../../lib/intake/batch";
import { interpretRows } from "../../lib/intake/interpret";
import { emptyMapping, MAPPED_COLUMNS, type MappedColumn, type Mapping } from "../../lib/intake/mapping";
import { cellOf, type RepeatedRows, type TidyRow } from "../../lib/intake/repeated-rows";
import type { ZoneOffset } from "../../lib/intake/zone";
import type { Actor } from "../commands/audit";
import { type Connection, once } from "../connection";
import type { KnownPlant } from "../measurements/known-plant";
import type { NewFeatures } from "./filed-features";
import { type IntakeCounts, type IntakeKind, Remarks, recordIntake } from "./record-intake";
import { Staging } from "./staging";
import type { Stored } from "./store-staged";

type Layout = { columns: readonly ("piece" | MappedColumn)[]; mapping: Mapping };

/** The tidy layout itself, every column under its own name. */
const WITH_INSPECTED = layoutOf(MAPPED_COLUMNS);
/** Hardly any rows are counts on a sample of their own size, and the others need not be asked for it. */
const USUAL = layoutOf(MAPPED_COLUMNS.filter((column) => column !== "inspected"));

function layoutOf(columns: readonly MappedColumn[]): Layout {
  const empty = emptyMapping("tidy");
  const mapped = Object.fromEntries(columns.map((column) => [column, { column }]));
  return {
    columns: ["piece", ...columns],
    mapping: { ...empty, piece: ["piece"], columns: { ...empty.columns, ...mapped } },
  };
}

/** Rows that passed every check that files pass, ready to be stored. */
export type ReadRows = { staging: Staging; names: FileNames; remarks: Remarks; accepted: number };

/**
 * Checks rows that came another way than in a file, by the same reader as files. Refusals that were found
 * before, such as a value that is no number, come along and are kept with the others.
 *
 * @param repeated what it made of earlier requests, where those come again and again
 * @throws UnreadableFile when the rows as a whole cannot be taken
 */
export function readRows(
  rows: readonly TidyRow[],
  { zone, refusals, repeated }: { zone: ZoneOffset; refusals: readonly Refusal[]; repeated?: RepeatedRows },
): ReadRows {
  const remarks = new Remarks();
  for (const refused of refusals) remarks.refuse(refused);
  const again = repeated?.read(rows, zone);
  if (again) return { ...again, staging: staged(again.names, again.batch), remarks, accepted: rows.length };

  const isInspected = rows.some((row) => cellOf(row, "inspected") !== null);
  const { columns, mapping } = isInspected ? WITH_INSPECTED : USUAL;
  let batch: TidyBatch | null = null;
  let isRemarked = false;
  const reading = interpretRows(
    mapping,
    // So that all of them are one batch.
    { zone, batchRows: Math.max(1, rows.length) },
    {
      batch: (read) => {
        batch = read;
      },
      refusal: (refused) => {
        isRemarked = true;
        remarks.refuse(refused);
      },
      notice: (notice) => {
        isRemarked = true;
        remarks.notice(notice);
      },
    },
  );
  reading.push(0, columns);
  for (const row of rows)
    reading.push(
      row.line,
      columns.map((column) => cellOf(row, column)),
    );
  reading.end();
  const { names, counts } = reading;
  if (batch !== null && !isRemarked) repeated?.remember(rows, { batch, names }, { mapping, zone });
  return { staging: staged(names, batch), names, remarks, accepted: counts.accepted };
}

function staged(names: FileNames, batch: TidyBatch | null): Staging {
  const staging = new Staging(names, { firstRows: batch?.count ?? 1 });
  if (batch !== null) staging.add(batch);
  staging.finish();
  return staging;
}

/** Stores rows as one intake and judges them; inside the caller's transaction. */
export function storeRows(
  connection: Connection,
  {
    rows,
    kind,
    name,
    digest,
    newFeatures,
    plant,
    what,
    actor,
  }: {
    rows: ReadRows;
    kind: IntakeKind;
    /** As the history names it. */
    name: string;
    /** SHA-256 of what came in, so that the same again is recognised. */
    digest: string;
    newFeatures: NewFeatures;
    /** What is known of the plant from before, which goes along with what is stored. */
    plant?: KnownPlant;
    what: "request" | "sheet";
    actor: Actor;
  },
): IntakeCounts & { id: number; message: string; stored: Stored } {
  const { staging, names, remarks } = rows;
  const id = beginQuery(connection).get({ name, digest, kind, ...actor }) as number;
  const outcome = recordIntake(connection, {
    id,
    digest,
    staging,
    names,
    newFeatures,
    plant,
    remarks,
    what,
    subject: name,
    actor,
    endedAt: () => actor.at,
    emptyMessage: null,
  });
  return { id, ...outcome };
}

/** It ends in the same transaction: written as done at once, it goes into each index once. */
const beginQuery = once(({ sqlite }) =>
  sqlite
    .prepare(
      `insert into intake (file, digest, kind, state, notices, started_at, ended_at, account_id)
         values (@name, @digest, @kind, 'done', '[]', @at, @at, @accountId) returning id`,
    )
    .pluck(),
);
