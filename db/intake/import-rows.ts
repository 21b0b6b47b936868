import type { FileNames, Refusal } from "../../lib/intake/batch";
import type { Cell } from "../../lib/intake/cells";
import { interpretRows } from "../../lib/intake/interpret";
import { emptyMapping, MAPPED_COLUMNS, type MappedColumn, type Mapping } from "../../lib/intake/mapping";
import type { ZoneOffset } from "../../lib/intake/zone";
import type { Actor } from "../commands/audit";
import { type Connection, once } from "../connection";
import type { KnownPlant } from "../measurements/known-plant";
import type { NewFeatures } from "./filed-features";
import { type IntakeCounts, type IntakeKind, Remarks, recordIntake } from "./record-intake";
import { Staging } from "./staging";
import type { Stored } from "./store-staged";

/** A measurement in the columns of the tidy file. What is not stated may be left out. */
export type TidyRow = { line: number; cells: Partial<Record<"piece" | MappedColumn, Cell>> };

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
 * @throws UnreadableFile when the rows as a whole cannot be taken
 */
export function readRows(
  rows: readonly TidyRow[],
  { zone, refusals }: { zone: ZoneOffset; refusals: readonly Refusal[] },
): ReadRows {
  const remarks = new Remarks();
  for (const refused of refusals) remarks.refuse(refused);
  let staging: Staging | null = null;
  const isInspected = rows.some(({ cells }) => cells.inspected !== undefined && cells.inspected !== null);
  const { columns, mapping } = isInspected ? WITH_INSPECTED : USUAL;
  const reading = interpretRows(
    mapping,
    { zone, batchRows: Math.max(1, rows.length) },
    {
      batch: (batch) => staging?.add(batch),
      refusal: (refused) => remarks.refuse(refused),
      notice: (notice) => remarks.notice(notice),
    },
  );
  staging = new Staging(reading.names, { firstRows: Math.max(1, rows.length) });
  reading.push(0, columns);
  for (const { line, cells } of rows)
    reading.push(
      line,
      columns.map((column) => cells[column] ?? null),
    );
  reading.end();
  staging.finish();
  return { staging, names: reading.names, remarks, accepted: reading.counts.accepted };
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
