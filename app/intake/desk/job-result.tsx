"use client";

import Link from "next/link";
import type { TouchedFeature } from "../../../db/queries/intakes";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Note } from "../../fittings/note";
import { StateShape } from "../../fittings/state-word";
import type { Job } from "../../jobs/job";
import { countedIn, lookWords, resultWords } from "../result-words";
import styles from "./desk.module.css";

const SHOWN_AT_ONCE = 8;

/** How a job ended: what was stored, and which features want a person's eyes first. */
export function JobResult({
  job,
  touched,
  words: { result: said, results },
}: {
  job: Job;
  touched: TouchedFeature[] | null;
  words: Pick<Words["desk"], "result" | "results">;
}) {
  const { outcome } = job;
  if (job.state !== "done" || outcome === null) {
    return <Note kind={job.state === "done" ? "saved" : "refused"}>{resultOf(job, said.cancelled)}</Note>;
  }
  const toLookAt = (touched ?? []).filter(({ alarm }) => alarm !== null);
  const others = (touched ?? []).filter(({ alarm }) => alarm === null);
  return (
    <Note
      kind="saved"
      title={
        <>
          {resultWords(outcome, results)}{" "}
          {touched && touched.length > 0 ? lookWords(toLookAt.length, results) : null}
        </>
      }
    >
      {outcome.message ? <p>{outcome.message}</p> : null}
      {toLookAt.length > 0 ? <ToLookAt features={toLookAt.slice(0, SHOWN_AT_ONCE)} /> : null}
      {toLookAt.length > SHOWN_AT_ONCE ? (
        <details className={styles.others}>
          <summary>{fill(said.more, { count: toLookAt.length - SHOWN_AT_ONCE })}</summary>
          <ToLookAt features={toLookAt.slice(SHOWN_AT_ONCE)} />
        </details>
      ) : null}
      {others.length > 0 ? (
        <details className={styles.others}>
          <summary>{countedIn(others.length, said.others)}</summary>
          <ul className={styles.inColumns}>
            {others.map((feature) => (
              <li key={feature.id}>
                <FeatureLink feature={feature} />
              </li>
            ))}
          </ul>
        </details>
      ) : null}
      <p className={styles.more}>
        <Link href={`/intake/${outcome.id}`}>{outcome.refused > 0 ? said.refusedRows : said.details}</Link>
      </p>
    </Note>
  );
}

function ToLookAt({ features }: { features: readonly TouchedFeature[] }) {
  return (
    <ul className={styles.toLookAt}>
      {features.map((feature) => (
        <li key={feature.id}>
          <StateShape tone="act" />
          <span>
            <FeatureLink feature={feature} />: {feature.alarm}
          </span>
        </li>
      ))}
    </ul>
  );
}

function resultOf(job: Job, cancelled: string): string {
  if (job.state === "cancelled" && job.message === "") return cancelled;
  return job.message;
}

function FeatureLink({ feature }: { feature: TouchedFeature }) {
  return (
    <Link href={`/features/${feature.id}`} prefetch={false}>
      {feature.part} {feature.name}
    </Link>
  );
}
