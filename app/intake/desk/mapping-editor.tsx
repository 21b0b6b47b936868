"use client";

import { type FormEvent, useRef, useState } from "react";
import type { Mapping } from "../../../lib/intake/mapping";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Button } from "../../fittings/controls";
import { FieldGroup, TextField } from "../../fittings/fields";
import { Note } from "../../fittings/note";
import type { Look } from "../look";
import type { CommitRequest } from "../mapping-schema";
import styles from "./editor.module.css";
import { FieldChoices } from "./field-choices";
import { FileColumns } from "./file-columns";
import { FormatChoices } from "./format-choices";
import { LookTables, lookedWords } from "./look-tables";
import { PieceParts } from "./piece-parts";
import { lookAgain } from "./server-calls";
import { ValueColumns } from "./value-columns";

const AFTER_TYPING_MS = 250;

/**
 * How one file is read, to be changed until the rows below look right.
 *
 * Every change is tried on the file at once; an answer that a newer change has overtaken is dropped.
 */
export function MappingEditor({
  id,
  fileName,
  look,
  takenNames,
  message,
  plantZone,
  onLook,
  onTake,
  words,
}: {
  id: string;
  fileName: string;
  look: Look;
  /** Names of saved mappings. */
  takenNames: readonly string[];
  /** Why the file could not be taken in; empty when nobody tried. */
  message: string;
  plantZone: string;
  onLook: (look: Look) => void;
  onTake: (request: CommitRequest) => Promise<void>;
  words: Words["desk"];
}) {
  const { editor: said, server } = words;
  const [mapping, setMapping] = useState(look.mapping);
  const [saveAs, setSaveAs] = useState(look.saved ?? freeName(fileName, takenNames));
  const [size, setSize] = useState("");
  const [isTouched, setTouched] = useState(false);
  const [fault, setFault] = useState("");
  const [isLooking, setLooking] = useState(false);
  const [isStarting, setStarting] = useState(false);
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  const latest = useRef<AbortController>(undefined);

  function change(next: Mapping) {
    setMapping(next);
    setTouched(true);
    setLooking(true);
    clearTimeout(timer.current);
    timer.current = setTimeout(() => void tryOut(next), AFTER_TYPING_MS);
  }

  async function tryOut(next: Mapping) {
    latest.current?.abort();
    const stop = new AbortController();
    latest.current = stop;
    const answer = await lookAgain(id, { mapping: next, signal: stop.signal, words: server });
    if (stop.signal.aborted) return;
    if (!answer.ok) {
      setFault(answer.message);
      setLooking(false);
      return;
    }
    setFault("");
    const found = answer.value.look;
    const isOtherHeader = found.fingerprint !== look.fingerprint;
    onLook(found);
    if (isOtherHeader) {
      // Another separator or encoding gives other columns, and what was chosen means nothing to them.
      const anew = { ...found.suggestion.mapping, dateFormat: next.dateFormat, zone: next.zone };
      setMapping(anew);
      await tryAfterReplacing(anew, stop.signal);
    }
    setLooking(false);
  }

  async function tryAfterReplacing(anew: Mapping, signal: AbortSignal) {
    const answer = await lookAgain(id, { mapping: anew, signal, words: server });
    if (answer.ok && !signal.aborted) onLook(answer.value.look);
  }

  async function take(event: FormEvent) {
    event.preventDefault();
    setStarting(true);
    await onTake({ mapping, saveAs, subgroupSize: size === "" ? null : Number(size) });
    setStarting(false);
  }

  const file = { header: look.header, rows: look.rows };
  const isWide = mapping.layout === "wide";
  const { notes } = look.suggestion;
  return (
    <form
      className={styles.editor}
      onSubmit={(event) => void take(event)}
      aria-label={fill(said.label, { name: fileName })}
    >
      {notes.length > 0 && look.saved === null && !isTouched ? (
        <Note kind="remark" title={said.readOff}>
          <ul className={styles.notes}>
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </Note>
      ) : null}
      <div className={styles.sides}>
        <FileColumns look={look} mapping={mapping} words={words} />
        <div className={styles.fields}>
          <FormatChoices
            mapping={mapping}
            file={file}
            plantZone={plantZone}
            onChange={change}
            words={words}
          />
          <PieceParts mapping={mapping} file={file} onChange={change} words={words} />
          <FieldChoices mapping={mapping} file={file} onChange={change} words={words} />
        </div>
      </div>
      {isWide ? <ValueColumns mapping={mapping} file={file} onChange={change} words={words} /> : null}
      <LookTables look={look} isLooking={isLooking} plantZone={plantZone} words={words} />
      <FieldGroup legend={said.keep}>
        <TextField
          label={said.saveAs}
          value={saveAs}
          maxLength={120}
          hint={said.saveAsHint}
          onChange={(event) => setSaveAs(event.target.value)}
        />
        <TextField
          label={said.size}
          value={size}
          inputMode="numeric"
          pattern="[1-9][0-9]{0,2}|1000"
          title={said.sizeTitle}
          hint={said.sizeHint}
          onChange={(event) => setSize(event.target.value)}
        />
      </FieldGroup>
      <div className={styles.finish}>
        <p role="status" className={fault || message ? styles.refused : undefined}>
          {fault || message || (isLooking ? said.reading : lookedWords(look, words))}
        </p>
        <Button type="submit" kind="main" disabled={look.problems.length > 0 || isLooking || isStarting}>
          {isStarting ? said.starting : said.take}
        </Button>
      </div>
    </form>
  );
}

/**
 * "Cell-A_2026-11-13.csv" is likely one of many "Cell-A" files. Where another layout has that name already,
 * the file's own whole name, and then a number, tells them apart.
 */
function freeName(fileName: string, takenNames: readonly string[]): string {
  const bare = fileName.replace(/\.[^.]*$/, "");
  const undated = bare
    .replace(/\d{4}-?\d{2}-?\d{2}/g, "")
    .replace(/[-_ ]+(mon|tues|wednes|thurs|fri|satur|sun)day/gi, "")
    .replace(/[-_ ]+$/, "")
    .trim();
  const isFree = (name: string) => name !== "" && !takenNames.includes(name);
  const plain = [undated, bare].find(isFree);
  if (plain !== undefined) return plain;
  let number = 2;
  while (!isFree(`${bare} ${number}`)) number++;
  return `${bare} ${number}`;
}
