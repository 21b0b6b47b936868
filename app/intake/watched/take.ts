import { join } from "node:path";
import { failIntake } from "../../../db/commands/intakes";
import type { Database } from "../../../db/connection";
import { digestOf } from "../../../db/intake/read-file";
import { refusalsOf, standingIntake } from "../../../db/queries/intakes";
import { plantSettings } from "../../../db/queries/settings";
import type { Mapping } from "../../../lib/intake/mapping";
import { UnreadableFile } from "../../../lib/intake/unreadable-file";
import { untimedStart } from "../../../lib/intake/untimed";
import { ENGLISH } from "../../../lib/words/words";
import type { Job } from "../../jobs/job";
import { startJob } from "../../jobs/jobs";
import { log } from "../../log";
import { readingOf } from "../look";
import { lookAtFile } from "../look-at-file";
import { refusalsCsv } from "../refusals-csv";
import { sizeWords } from "../result-words";
import { type LyingFile, moveTo, WHY } from "./folder";

/**
 * Takes one file of the watched folder in and moves it: to `done` once it is stored, else to `refused` with its
 * reason. Refused rows of a file that was stored lie beside it as a table.
 */
export async function takeFromFolder(
  database: Database,
  { folder, file, mostBytes }: { folder: string; file: LyingFile; mostBytes: number },
): Promise<void> {
  const refuse = (why: string) => moveTo(folder, file.name, "refused", [{ suffix: WHY, text: `${why}\n` }]);
  if (file.size > mostBytes) {
    await refuse(
      `Nothing stored: the file has ${sizeWords(file.size, ENGLISH.desk.results)}, and this server takes ${sizeWords(mostBytes, ENGLISH.desk.results)} (STEADYREST_MAX_UPLOAD_MB). Split it.`,
    );
    return;
  }
  const path = join(folder, file.name);
  // Stored before and not moved, because the program was stopped in between; or the same file put here again.
  const earlier = await standingIntake(database, await digestOf(path));
  if (earlier) {
    await moveTo(folder, file.name, "done", await rowsRefused(database, earlier.id));
    return;
  }
  try {
    const { zone: plantZone, clock } = await plantSettings(database);
    const look = await lookAtFile(database, { path, name: file.name }, { plantZone });
    if (readingOf(look) === "to map") {
      const [problem] = look.problems;
      await refuse(
        `Nothing stored: ${problem?.message ?? "this layout leaves open which column is which."} Drop the file on the page Intake, tell there once which column is which and save it under a name; then put this file back into the folder.`,
      );
      return;
    }
    const actor = { accountId: null, at: clock ?? Date.now() };
    const job = await taken(database, { path, fileName: file.name, mapping: look.mapping, plantZone, actor });
    if (job.state === "done" && job.outcome)
      await moveTo(folder, file.name, "done", await rowsRefused(database, job.outcome.id));
    else await refuse(job.message);
  } catch (error) {
    if (!(error instanceof UnreadableFile)) throw error;
    await refuse(`Nothing stored: ${error.message}`);
  }
}

/** Puts the file into the queue of jobs, behind what people are waiting for, and waits for its end. */
function taken(
  database: Database,
  {
    path,
    fileName,
    mapping,
    plantZone,
    actor,
  }: {
    path: string;
    fileName: string;
    mapping: Mapping;
    plantZone: string;
    actor: { accountId: null; at: number };
  },
): Promise<Job> {
  return new Promise((resolve) => {
    startJob({
      kind: "take file",
      file: fileName,
      uploadId: null,
      accountId: null,
      databasePath: database.path,
      task: {
        kind: "take file",
        path,
        fileName,
        from: "folder",
        mapping: untimedStart(mapping, actor.at),
        zone: mapping.zone ?? plantZone,
        subgroupSize: null,
        actor,
      },
      async onEnd(job) {
        try {
          if (job.state === "failed" && job.intakeId !== null)
            await failIntake(database, { id: job.intakeId, message: job.message, at: actor.at });
        } finally {
          resolve(job);
        }
      },
      onFault: (error) =>
        log.error({ err: error }, "a failed file of the watched folder was not marked so in the history"),
    });
  });
}

async function rowsRefused(
  database: Database,
  intakeId: number,
): Promise<{ suffix: string; text: string }[]> {
  const refused = await refusalsOf(database, intakeId);
  return refused.length === 0 ? [] : [{ suffix: ".refusals.csv", text: refusalsCsv(refused) }];
}
