"use client";

import { type ReactNode, useEffect, useRef } from "react";
import { Button } from "../../fittings/controls";
import { Note } from "../../fittings/note";
import { StateWord } from "../../fittings/state-word";
import type { Job } from "../../jobs/job";
import type { Look } from "../look";
import { readingOf } from "../look";
import type { CommitRequest } from "../mapping-schema";
import { sizeWords } from "../result-words";
import styles from "./desk.module.css";
import { type DeskItem, isRunning } from "./desk-items";
import { JobProgress } from "./job-progress";
import { JobResult } from "./job-result";
import { MappingEditor } from "./mapping-editor";

type LookedAt = DeskItem & { stage: "looked at" };

/** One file on the desk: what it is, how it stands, what can be done with it. */
export function FileCard({
  item,
  takenNames,
  plantZone,
  isOpen,
  onOpen,
  onTake,
  onTakeAsIs,
  onLook,
  onAgain,
  onClear,
  onStop,
}: {
  item: DeskItem;
  takenNames: readonly string[];
  plantZone: string;
  isOpen: boolean;
  onOpen: (isOpen: boolean) => void;
  onTake: (item: LookedAt, request: CommitRequest) => Promise<void>;
  onTakeAsIs: (item: LookedAt) => void;
  onLook: (item: LookedAt, look: Look) => void;
  onAgain: (item: DeskItem, id: string) => void;
  onClear: (item: DeskItem) => void;
  onStop: (job: Job) => void;
}) {
  const card = useRef<HTMLLIElement>(null);
  const isBegun = item.stage === "job";
  useEffect(() => {
    // The mapping has folded away below the reader: bring the file they sent off back into sight.
    if (isBegun) card.current?.scrollIntoView({ block: "nearest" });
  }, [isBegun]);

  return (
    <li className={styles.file} ref={card}>
      <div className={styles.fileHead}>
        <div className={styles.fileName}>
          <h3>{item.name}</h3>
          <p>{item.bytes > 0 ? sizeWords(item.bytes) : null}</p>
        </div>
        <div className={styles.fileState} role="status">
          <FileState item={item} />
        </div>
        <div className={styles.fileActions}>
          {item.stage === "looked at" ? (
            <>
              {readingOf(item.look) === "to map" || isOpen ? null : (
                <Button kind="main" aria-label={`Take in ${item.name}`} onClick={() => onTakeAsIs(item)}>
                  Take in
                </Button>
              )}
              <Button
                kind={readingOf(item.look) === "to map" && !isOpen ? "main" : "plain"}
                aria-expanded={isOpen}
                aria-label={`${openWord(item.look, isOpen)} ${item.name}`}
                onClick={() => onOpen(!isOpen)}
              >
                {openWord(item.look, isOpen)}
              </Button>
            </>
          ) : null}
          {item.stage === "job" && isRunning(item) && item.job.kind === "take file" ? (
            <Button aria-label={`Cancel taking in ${item.name}`} onClick={() => onStop(item.job)}>
              Cancel
            </Button>
          ) : null}
          {canBeTriedAgain(item) ? (
            <Button onClick={() => onAgain(item, item.id)} aria-label={`Look again at ${item.name}`}>
              Look again
            </Button>
          ) : null}
          {item.stage === "job" && isRunning(item) ? null : (
            <Button kind="quiet" onClick={() => onClear(item)} aria-label={`${clearWord(item)} ${item.name}`}>
              {clearWord(item)}
            </Button>
          )}
        </div>
      </div>
      <FileBody item={item} isOpen={isOpen} />
      {item.stage === "looked at" && isOpen ? (
        <MappingEditor
          key={item.id}
          id={item.id}
          fileName={item.name}
          look={item.look}
          takenNames={takenNames}
          message={item.message}
          plantZone={plantZone}
          onLook={(look) => onLook(item, look)}
          onTake={(request) => onTake(item, request)}
        />
      ) : null}
    </li>
  );
}

function openWord(look: Look, isOpen: boolean): string {
  if (isOpen) return "Fold";
  return readingOf(look) === "to map" ? "Map columns" : "Look at";
}

function canBeTriedAgain(item: DeskItem): item is DeskItem & { stage: "job" } {
  return (
    item.stage === "job" &&
    item.job.kind === "take file" &&
    (item.job.state === "failed" || item.job.state === "cancelled")
  );
}

function clearWord(item: DeskItem): string {
  if (item.stage === "sending" || item.stage === "queued") return "Stop";
  return item.stage === "looked at" || item.stage === "opening" ? "Discard" : "Clear away";
}

function FileState({ item }: { item: DeskItem }): ReactNode {
  switch (item.stage) {
    case "queued":
      return <StateWord state="undone">waiting to be sent</StateWord>;
    case "opening":
      return <StateWord state="running">opening</StateWord>;
    case "sending":
      return <StateWord state="running">sending, {Math.round(100 * item.share)} %</StateWord>;
    case "turned away":
      return <StateWord state="failed">turned away</StateWord>;
    case "looked at":
      return <ReadingWord look={item.look} />;
    case "job":
      return <JobWord job={item.job} />;
  }
}

function ReadingWord({ look }: { look: Look }) {
  const reading = readingOf(look);
  if (reading === "saved")
    return <StateWord state="done">ready: read as saved mapping “{look.saved}”</StateWord>;
  if (reading === "recognised") return <StateWord state="done">ready: recognised by its header</StateWord>;
  const isNew = look.problems.length > 0 || look.suggestion.unmatched.length > 0;
  return (
    <StateWord state="running">
      {isNew ? "layout not seen before: map its columns" : "look at how it is read"}
    </StateWord>
  );
}

function JobWord({ job }: { job: Job }) {
  switch (job.state) {
    case "waiting":
      return (
        <StateWord state="undone">
          {job.ahead === 1 ? "waiting for 1 other" : `waiting for ${job.ahead} others`}
        </StateWord>
      );
    case "running":
      return <StateWord state="running">{job.kind === "undo" ? "being undone" : "being taken in"}</StateWord>;
    case "done":
      return <StateWord state="done">{job.kind === "undo" ? "undone" : "taken in"}</StateWord>;
    default:
      return <StateWord state={job.state} />;
  }
}

function FileBody({ item, isOpen }: { item: DeskItem; isOpen: boolean }) {
  if (item.stage === "turned away") return <Note kind="refused">{item.message}</Note>;
  // Where the mapping is open, the message stands beside its button.
  if (item.stage === "looked at" && item.message !== "" && !isOpen)
    return <Note kind="refused">{item.message}</Note>;
  if (item.stage === "sending")
    return <progress className={styles.bar} max={1} value={item.share} aria-label={`Sending ${item.name}`} />;
  if (item.stage !== "job") return null;
  return isRunning(item) ? (
    <JobProgress job={item.job} />
  ) : (
    <JobResult job={item.job} touched={item.touched} />
  );
}
