import "server-only";
import type { Actor } from "../../db/commands/audit";
import { failIntake } from "../../db/commands/intakes";
import type { IntakeRow } from "../../db/queries/intakes";
import type { Mapping } from "../../lib/intake/mapping";
import { untimedStart } from "../../lib/intake/untimed";
import { database } from "../database";
import type { Job } from "../jobs/job";
import { startJob } from "../jobs/jobs";
import { log } from "../log";
import { discard, pathOf, type Upload } from "./uploads";

/** Puts the reading and storing of an upload into the queue. */
export async function startTaking(
  folder: string,
  upload: Upload,
  options: { mapping: Mapping; subgroupSize: number | null; plantZone: string; actor: Actor },
): Promise<Job> {
  const { mapping, subgroupSize, plantZone, actor } = options;
  const opened = await database();
  return startJob({
    kind: "take file",
    file: upload.name,
    uploadId: upload.id,
    accountId: actor.accountId,
    databasePath: opened.path,
    task: {
      kind: "take file",
      path: pathOf(folder, upload.id),
      fileName: upload.name,
      from: "file",
      mapping: untimedStart(mapping, actor.at),
      zone: mapping.zone ?? plantZone,
      subgroupSize,
      actor,
    },
    async onEnd(job) {
      if (job.state === "done") await discard(folder, upload.id);
      if (job.state === "failed" && job.intakeId !== null) {
        await failIntake(opened, { id: job.intakeId, message: job.message, at: actor.at });
      }
    },
    onFault,
  });
}

/** Puts the undoing of an intake into the queue: its features are judged anew, which may take a while. */
export async function startUndo(intake: IntakeRow, { actor }: { actor: Actor }): Promise<Job> {
  return startJob({
    kind: "undo",
    file: intake.file,
    uploadId: null,
    accountId: actor.accountId,
    databasePath: (await database()).path,
    task: { kind: "undo", intakeId: intake.id, actor },
    onEnd: async () => {},
    onFault,
  });
}

function onFault(error: unknown): void {
  log.error({ err: error }, "what had to be done after an intake or its undoing was not done");
}
