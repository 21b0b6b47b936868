import { and, eq } from "drizzle-orm";
import type { FileNames } from "../../lib/intake/batch";
import type { Mapping } from "../../lib/intake/mapping";
import { UnreadableFile } from "../../lib/intake/unreadable-file";
import type { ZoneOffset } from "../../lib/intake/zone";
import type { Actor } from "../commands/audit";
import { connectionOf, type Database, write } from "../connection";
import { intake, mapping as mappingTable } from "../schema";
import type { NewFeatures } from "./filed-features";
import { readMeasurementFile } from "./read-file";
import { type IntakeCounts, type IntakeKind, Remarks, recordIntake } from "./record-intake";
import { Staging } from "./staging";

export type IntakeProgress =
  | { step: "reading"; done: number; total: number; rows: number }
  | { step: "storing"; done: number; total: number };

export type ImportOptions = {
  path: string;
  fileName: string;
  /** A file that a person dropped or named, or one that lay in the watched folder. */
  kind?: IntakeKind & ("file" | "folder");
  mapping: Mapping;
  zone: ZoneOffset;
  newFeatures: NewFeatures;
  actor: Actor;
  mostUnpackedBytes?: number | undefined;
  /** Given the id under which the history shows this attempt, before anything is read. */
  onBegin?: (intakeId: number) => void;
  onProgress?: (progress: IntakeProgress) => void;
  /** Aborting leaves nothing stored. */
  signal?: AbortSignal;
};

export type IntakeOutcome = IntakeCounts & {
  id: number;
  file: string;
  digest: string;
  state: "done" | "failed" | "cancelled";
  /** Why nothing was stored, or what the person should know; empty when there is nothing to say. */
  message: string;
};

export class CancelledIntake extends Error {
  override name = "CancelledIntake";
}

/**
 * Brings one measurement file in: reads, checks, stores, and judges every feature it touches.
 *
 * All of its good rows are stored in one transaction, or, when it is unreadable, cancelled or the program
 * dies, none. Bad rows are kept as refusals. The history shows every attempt and how it ended.
 */
export async function importFile(database: Database, options: ImportOptions): Promise<IntakeOutcome> {
  const { fileName, mapping, actor, signal } = options;
  const id = await begin(database, options);
  options.onBegin?.(id);
  const begun = Date.now();
  const now = () => actor.at + Date.now() - begun;
  const remarks = new Remarks();
  let staging: Staging | null = null;
  let names: FileNames | null = null;
  const stopIfCancelled = () => {
    if (signal?.aborted) throw new CancelledIntake("Cancelled by a person. Nothing of this file was stored.");
  };

  try {
    let rows = 0;
    const reading = await readMeasurementFile(
      { path: options.path, name: fileName },
      mapping,
      {
        zone: options.zone,
        mostUnpackedBytes: options.mostUnpackedBytes,
        onNames: (found) => {
          names = found;
          staging = new Staging(found);
        },
        onProgress: (done, total) => {
          stopIfCancelled();
          options.onProgress?.({ step: "reading", done, total, rows });
        },
      },
      {
        batch(batch) {
          rows += batch.count;
          staging?.add(batch);
        },
        refusal: (refused) => remarks.refuse(refused),
        notice: (notice) => remarks.notice(notice),
      },
    );
    if (!staging || !names) throw new UnreadableFile("empty", null, "The file has no header.");
    const staged = staging as Staging;
    const filedNames = names as FileNames;
    staged.finish();
    requireKnownTimes(database, mapping, reading.digest);

    return await write(database, (connection) => {
      const { stored: _, ...outcome } = recordIntake(connection, {
        id,
        digest: reading.digest,
        staging: staged,
        names: filedNames,
        newFeatures: options.newFeatures,
        remarks,
        what: "file",
        subject: fileName,
        actor,
        endedAt: now,
        emptyMessage:
          reading.counts.rows === 0
            ? "The file holds a header and no row below it: nothing was stored."
            : null,
        onFeature: (done, total) => {
          stopIfCancelled();
          options.onProgress?.({ step: "storing", done, total });
        },
      });
      return { id, file: fileName, digest: reading.digest, state: "done" as const, ...outcome };
    });
  } catch (error) {
    return await endWithout(database, { id, fileName, error, at: now() });
  } finally {
    (staging as Staging | null)?.close();
  }
}

async function begin(
  database: Database,
  { fileName, kind = "file", mapping, actor }: ImportOptions,
): Promise<number> {
  return write(database, ({ orm }) => {
    const named = orm
      .select({ name: mappingTable.name })
      .from(mappingTable)
      .where(eq(mappingTable.name, mapping.name))
      .get();
    return orm
      .insert(intake)
      .values({
        file: fileName,
        digest: "",
        kind,
        mappingName: named?.name ?? "",
        state: "running",
        notices: [],
        startedAt: actor.at,
        accountId: actor.accountId,
      })
      .returning({ id: intake.id })
      .get().id;
  });
}

/**
 * Rows without a time of their own get one by their place in the file, so the same file brought in twice
 * could not be told from new measurements. It is refused by its digest instead.
 */
function requireKnownTimes(database: Database, mapping: Mapping, digest: string): void {
  if (mapping.columns.taken_at !== null) return;
  const earlier = connectionOf(database)
    .orm.select({ id: intake.id, file: intake.file })
    .from(intake)
    .where(and(eq(intake.digest, digest), eq(intake.state, "done")))
    .get();
  if (!earlier) return;
  throw new UnreadableFile(
    "unsupported",
    null,
    `The same file was brought in before, as intake ${earlier.id} (${earlier.file}), and its rows state no time ` +
      "by which they could be told apart. It adds nothing. Undo that intake first if it was wrong.",
  );
}

async function endWithout(
  database: Database,
  { id, fileName, error, at }: { id: number; fileName: string; error: unknown; at: number },
): Promise<IntakeOutcome> {
  const state = error instanceof CancelledIntake ? "cancelled" : "failed";
  const expected = error instanceof CancelledIntake || error instanceof UnreadableFile;
  const reason = error instanceof Error ? error.message : String(error);
  const message = expected
    ? reason
    : `Nothing of this file was stored, through a fault of the program: ${reason}`;
  await write(database, ({ orm }) => {
    orm.update(intake).set({ state, message, endedAt: at }).where(eq(intake.id, id)).run();
  });
  if (!expected) throw error;
  const none = { accepted: 0, refused: 0, duplicates: 0, corrections: 0, late: 0, signals: 0, alarms: 0 };
  return { id, file: fileName, digest: "", state, ...none, message };
}
