"use client";

import { type ReactNode, useEffect, useRef } from "react";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Button } from "../../fittings/controls";
import { Note } from "../../fittings/note";
import { StateWord } from "../../fittings/state-word";
import type { Job } from "../../jobs/job";
import type { Look } from "../look";
import { readingOf } from "../look";
import type { CommitRequest } from "../mapping-schema";
import { countedIn, sizeWords } from "../result-words";
import styles from "./desk.module.css";
import { type DeskItem, isRunning } from "./desk-items";
import { JobProgress } from "./job-progress";
import { JobResult } from "./job-result";
import { MappingEditor } from "./mapping-editor";

type DeskWords = Words["desk"];
type CardWords = DeskWords["card"];
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
  words,
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
  words: DeskWords;
}) {
  const { card: said } = words;
  const { name } = item;
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
          <p>{item.bytes > 0 ? sizeWords(item.bytes, words.results) : null}</p>
        </div>
        <div className={styles.fileState} role="status">
          <FileState item={item} said={said} />
        </div>
        <div className={styles.fileActions}>
          {item.stage === "looked at" ? (
            <>
              {readingOf(item.look) === "to map" || isOpen ? null : (
                <Button
                  kind="main"
                  aria-label={fill(said.takeFile, { name })}
                  onClick={() => onTakeAsIs(item)}
                >
                  {said.take}
                </Button>
              )}
              <Button
                kind={readingOf(item.look) === "to map" && !isOpen ? "main" : "plain"}
                aria-expanded={isOpen}
                aria-label={fill(said.withFile, { word: openWord(item.look, isOpen, said), name })}
                onClick={() => onOpen(!isOpen)}
              >
                {openWord(item.look, isOpen, said)}
              </Button>
            </>
          ) : null}
          {item.stage === "job" && isRunning(item) && item.job.kind === "take file" ? (
            <Button aria-label={fill(said.cancelFile, { name })} onClick={() => onStop(item.job)}>
              {said.cancel}
            </Button>
          ) : null}
          {canBeTriedAgain(item) ? (
            <Button onClick={() => onAgain(item, item.id)} aria-label={fill(said.againFile, { name })}>
              {said.again}
            </Button>
          ) : null}
          {item.stage === "job" && isRunning(item) ? null : (
            <Button
              kind="quiet"
              onClick={() => onClear(item)}
              aria-label={fill(said.withFile, { word: clearWord(item, said), name })}
            >
              {clearWord(item, said)}
            </Button>
          )}
        </div>
      </div>
      <FileBody item={item} isOpen={isOpen} words={words} />
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
          words={words}
        />
      ) : null}
    </li>
  );
}

function openWord(look: Look, isOpen: boolean, said: CardWords): string {
  if (isOpen) return said.fold;
  return readingOf(look) === "to map" ? said.map : said.look;
}

function canBeTriedAgain(item: DeskItem): item is DeskItem & { stage: "job" } {
  return (
    item.stage === "job" &&
    item.job.kind === "take file" &&
    (item.job.state === "failed" || item.job.state === "cancelled")
  );
}

function clearWord(item: DeskItem, said: CardWords): string {
  if (item.stage === "sending" || item.stage === "queued") return said.stop;
  return item.stage === "looked at" || item.stage === "opening" ? said.discard : said.clear;
}

function FileState({ item, said }: { item: DeskItem; said: CardWords }): ReactNode {
  switch (item.stage) {
    case "queued":
      return <StateWord state="undone">{said.queued}</StateWord>;
    case "opening":
      return <StateWord state="running">{said.opening}</StateWord>;
    case "sending":
      return (
        <StateWord state="running">{fill(said.sending, { share: Math.round(100 * item.share) })}</StateWord>
      );
    case "turned away":
      return <StateWord state="failed">{said.turnedAway}</StateWord>;
    case "looked at":
      return <ReadingWord look={item.look} said={said} />;
    case "job":
      return <JobWord job={item.job} said={said} />;
  }
}

function ReadingWord({ look, said }: { look: Look; said: CardWords }) {
  const reading = readingOf(look);
  if (reading === "saved")
    return <StateWord state="done">{fill(said.saved, { name: look.saved ?? "" })}</StateWord>;
  if (reading === "recognised") return <StateWord state="done">{said.recognised}</StateWord>;
  const isNew = look.problems.length > 0 || look.suggestion.unmatched.length > 0;
  return <StateWord state="running">{isNew ? said.newLayout : said.lookHow}</StateWord>;
}

function JobWord({ job, said }: { job: Job; said: CardWords }) {
  switch (job.state) {
    case "waiting":
      return <StateWord state="undone">{countedIn(job.ahead, said.waiting)}</StateWord>;
    case "running":
      return <StateWord state="running">{job.kind === "undo" ? said.undoing : said.taking}</StateWord>;
    case "done":
      return <StateWord state="done">{job.kind === "undo" ? said.undone : said.taken}</StateWord>;
    default:
      return <StateWord state={job.state} />;
  }
}

function FileBody({ item, isOpen, words }: { item: DeskItem; isOpen: boolean; words: DeskWords }) {
  if (item.stage === "turned away") return <Note kind="refused">{item.message}</Note>;
  // Where the mapping is open, the message stands beside its button.
  if (item.stage === "looked at" && item.message !== "" && !isOpen)
    return <Note kind="refused">{item.message}</Note>;
  // Whoever takes it in unseen should have read this; where the mapping is open it stands in the preview.
  if (item.stage === "looked at" && item.look.far && !isOpen)
    return <Note kind="remark">{item.look.far}</Note>;
  if (item.stage === "sending")
    return (
      <progress
        className={styles.bar}
        max={1}
        value={item.share}
        aria-label={fill(words.card.sendingFile, { name: item.name })}
      />
    );
  if (item.stage !== "job") return null;
  return isRunning(item) ? (
    <JobProgress job={item.job} words={words} />
  ) : (
    <JobResult job={item.job} touched={item.touched} words={words} />
  );
}
