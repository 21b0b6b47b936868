"use client";

import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";
import type { IntakeRow } from "../../../db/queries/intakes";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Button } from "../../fittings/controls";
import { Dialog } from "../../fittings/dialog";
import { Note } from "../../fittings/note";
import type { Job } from "../../jobs/job";
import { JobProgress } from "../desk/job-progress";
import { jobsNow, undo } from "../desk/server-calls";
import styles from "../intake.module.css";
import { countedIn } from "../result-words";

const ASK_EVERY_MS = 500;

/** Takes an intake back, after saying what that does; the work goes on when the page is left. */
export function UndoIntake({
  intake,
  features,
  words,
}: {
  intake: Pick<IntakeRow, "id" | "accepted" | "corrections">;
  features: number;
  words: Pick<Words["desk"], "undo" | "server" | "results" | "card">;
}) {
  const { undo: said } = words;
  const [job, setJob] = useState<Job | null>(null);
  const [message, setMessage] = useState("");
  const router = useRouter();
  const jobId = job?.id;
  const isRunning = job !== null && job.endedAt === null;

  useEffect(() => {
    if (!isRunning) return;
    const timer = setInterval(async () => {
      const answer = await jobsNow(words.server);
      const found = answer.ok ? answer.value.jobs.find(({ id }) => id === jobId) : undefined;
      if (!found) return;
      setJob(found);
      if (found.endedAt === null) return;
      if (found.state !== "done") setMessage(found.message);
      router.refresh();
    }, ASK_EVERY_MS);
    return () => clearInterval(timer);
  }, [isRunning, jobId, router, words.server]);

  async function start() {
    setMessage("");
    const answer = await undo(intake.id, words.server);
    if (answer.ok) setJob(answer.value.job);
    else setMessage(answer.message);
  }

  return (
    <Dialog label={said.open} title={said.title} kind="grave">
      <ul className={styles.consequences}>
        <li>
          {fill(said.go, {
            measurements: countedIn(intake.accepted, said.measurements),
            features: countedIn(features, said.features),
          })}
        </li>
        {intake.corrections > 0 ? <li>{countedIn(intake.corrections, said.corrections)}</li> : null}
        {said.consequences.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      {message ? <Note kind="refused">{message}</Note> : null}
      {job !== null && isRunning ? <JobProgress job={job} words={words} /> : null}
      <div>
        <Button kind="grave" disabled={isRunning} onClick={() => void start()}>
          {isRunning ? said.undoing : said.submit}
        </Button>
      </div>
    </Dialog>
  );
}
