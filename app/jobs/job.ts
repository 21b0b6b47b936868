import type { IntakeOutcome, IntakeProgress } from "../../db/intake/import-file";

export type JobState = "waiting" | "running" | "done" | "failed" | "cancelled";

/** A long piece of work as pages show it. */
export type Job = {
  id: string;
  kind: "take file" | "undo";
  /** Name of the file it is about. */
  file: string;
  /** The upload it reads, so that a page finds its own; null for an undo. */
  uploadId: string | null;
  state: JobState;
  /** Jobs that have to end before it starts. */
  ahead: number;
  progress: IntakeProgress | null;
  /** Where the history shows it; null before it is begun. */
  intakeId: number | null;
  outcome: IntakeOutcome | null;
  /** How it ended, in a sentence; empty while it has not. */
  message: string;
  accountId: number | null;
  endedAt: number | null;
};
