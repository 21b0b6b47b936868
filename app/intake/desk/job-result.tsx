"use client";

import Link from "next/link";
import type { TouchedFeature } from "../../../db/queries/intakes";
import { counted } from "../../../lib/format/numbers";
import { Note } from "../../fittings/note";
import { StateShape } from "../../fittings/state-word";
import type { Job } from "../../jobs/job";
import { lookWords, resultWords } from "../result-words";
import styles from "./desk.module.css";

const SHOWN_AT_ONCE = 8;

/** How a job ended: what was stored, and which features want a person's eyes first. */
export function JobResult({ job, touched }: { job: Job; touched: TouchedFeature[] | null }) {
  const { outcome } = job;
  if (job.state !== "done" || outcome === null) {
    return <Note kind={job.state === "done" ? "saved" : "refused"}>{resultOf(job)}</Note>;
  }
  const toLookAt = (touched ?? []).filter(({ alarm }) => alarm !== null);
  const others = (touched ?? []).filter(({ alarm }) => alarm === null);
  return (
    <Note
      kind="saved"
      title={
        <>
          {resultWords(outcome)} {touched && touched.length > 0 ? lookWords(toLookAt.length) : null}
        </>
      }
    >
      {outcome.message ? <p>{outcome.message}</p> : null}
      {toLookAt.length > 0 ? <ToLookAt features={toLookAt.slice(0, SHOWN_AT_ONCE)} /> : null}
      {toLookAt.length > SHOWN_AT_ONCE ? (
        <details className={styles.others}>
          <summary>{`${toLookAt.length - SHOWN_AT_ONCE} more that need a look`}</summary>
          <ToLookAt features={toLookAt.slice(SHOWN_AT_ONCE)} />
        </details>
      ) : null}
      {others.length > 0 ? (
        <details className={styles.others}>
          <summary>{`The other ${counted(others.length, "feature")} it touched`}</summary>
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
        <Link href={`/intake/${outcome.id}`}>
          {outcome.refused > 0 ? "Refused rows, notices and undo" : "Details and undo"}
        </Link>
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

function resultOf(job: Job): string {
  if (job.state === "cancelled" && job.message === "") return "Cancelled. Nothing of this file was stored.";
  return job.message;
}

function FeatureLink({ feature }: { feature: TouchedFeature }) {
  return (
    <Link href={`/features/${feature.id}`} prefetch={false}>
      {feature.part} {feature.name}
    </Link>
  );
}
