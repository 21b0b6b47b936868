"use client";

import type { Job } from "../../jobs/job";
import { progressShare, progressWords } from "../result-words";
import styles from "./desk.module.css";

/** How far a job has come, as a bar and in words. */
export function JobProgress({ job }: { job: Job }) {
  if (job.state === "waiting") return null;
  const share = progressShare(job.progress);
  const words = job.kind === "undo" ? "Taking measurements back" : progressWords(job.progress);
  return (
    <div className={styles.progress}>
      <progress
        className={styles.bar}
        max={1}
        {...(share !== null && { value: share })}
        aria-label={job.file}
      />
      <p>{words}</p>
    </div>
  );
}
