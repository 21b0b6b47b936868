"use client";

import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";
import type { IntakeRow } from "../../../db/queries/intakes";
import { counted } from "../../../lib/format/numbers";
import { Button } from "../../fittings/controls";
import { Dialog } from "../../fittings/dialog";
import { Note } from "../../fittings/note";
import type { Job } from "../../jobs/job";
import { JobProgress } from "../desk/job-progress";
import { jobsNow, undo } from "../desk/server-calls";
import styles from "../intake.module.css";

const ASK_EVERY_MS = 500;

/** Takes an intake back, after saying what that does; the work goes on when the page is left. */
export function UndoIntake({
  intake,
  features,
}: {
  intake: Pick<IntakeRow, "id" | "accepted" | "corrections">;
  features: number;
}) {
  const [job, setJob] = useState<Job | null>(null);
  const [message, setMessage] = useState("");
  const router = useRouter();
  const jobId = job?.id;
  const isRunning = job !== null && job.endedAt === null;

  useEffect(() => {
    if (!isRunning) return;
    const timer = setInterval(async () => {
      const answer = await jobsNow();
      const found = answer.ok ? answer.value.jobs.find(({ id }) => id === jobId) : undefined;
      if (!found) return;
      setJob(found);
      if (found.endedAt === null) return;
      if (found.state !== "done") setMessage(found.message);
      router.refresh();
    }, ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [isRunning, jobId, router]);

  async function start() {
    setMessage("");
    const answer = await undo(intake.id);
    if (answer.ok) setJob(answer.value.job);
    else setMessage(answer.message);
  }

  return (
    <Dialog label="Undo this intake" title="Undo this intake?" kind="grave">
      <ul className={styles.consequences}>
        <li>
          Its {counted(intake.accepted, "measurement")} of {counted(features, "feature")} go, and the features
          are judged anew.
        </li>
        {intake.corrections > 0 ? (
          <li>
            {counted(intake.corrections, "value")} that it corrected{" "}
            {intake.corrections === 1 ? "comes" : "come"} back as before.
          </li>
        ) : null}
        <li>Alarms that rested on them are marked as withdrawn. Nobody’s notes are deleted.</li>
        <li>Parts and features it entered stay in the control plan.</li>
        <li>The history keeps the intake, marked as undone. Bring the file in again to redo it.</li>
      </ul>
      {message ? <Note kind="refused">{message}</Note> : null}
      {job !== null && isRunning ? <JobProgress job={job} /> : null}
      <div>
        <Button kind="grave" disabled={isRunning} onClick={() => void start()}>
          {isRunning ? "Undoing …" : "Undo it"}
        </Button>
      </div>
    </Dialog>
  );
}
