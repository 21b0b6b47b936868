"use client";

import type { Words } from "../../../lib/words/words";
import type { Job } from "../../jobs/job";
import { progressShare, progressWords } from "../result-words";
import styles from "./desk.module.css";

/** How far a job has come, as a bar and in words. */
export function JobProgress({
  job,
  words: { card, results },
}: {
  job: Job;
  words: Pick<Words["desk"], "card" | "results">;
}) {
  if (job.state === "waiting") return null;
  const share = progressShare(job.progress);
  const said = job.kind === "undo" ? card.takingBack : progressWords(job.progress, results);
  return (
    <div className={styles.progress}>
      <progress
        className={styles.bar}
        max={1}
        {...(share !== null && { value: share })}
        aria-label={job.file}
      />
      <p>{said}</p>
    </div>
  );
}
