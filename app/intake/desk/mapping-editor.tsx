"use client";

import { type FormEvent, useRef, useState } from "react";
import type { Mapping } from "../../../lib/intake/mapping";
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
}) {
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
    const answer = await lookAgain(id, { mapping: next, signal: stop.signal });
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
    const answer = await lookAgain(id, { mapping: anew, signal });
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
      aria-label={`Mapping of ${fileName}`}
    >
      {notes.length > 0 && look.saved === null && !isTouched ? (
        <Note kind="remark" title="Read off the file; look at these first">
          <ul className={styles.notes}>
            {notes.map((note) => (
              <li key={note}>{note}</li>
            ))}
          </ul>
        </Note>
      ) : null}
      <div className={styles.sides}>
        <FileColumns look={look} mapping={mapping} />
        <div className={styles.fields}>
          <FormatChoices mapping={mapping} file={file} plantZone={plantZone} onChange={change} />
          <PieceParts mapping={mapping} file={file} onChange={change} />
          <FieldChoices mapping={mapping} file={file} onChange={change} />
        </div>
      </div>
      {isWide ? <ValueColumns mapping={mapping} file={file} onChange={change} /> : null}
      <LookTables look={look} isLooking={isLooking} plantZone={plantZone} />
      <FieldGroup legend="Keep for later files">
        <TextField
          label="Save this mapping as"
          value={saveAs}
          maxLength={120}
          hint="Files with the same header are then read by themselves. Empty: for this file only."
          onChange={(event) => setSaveAs(event.target.value)}
        />
        <TextField
          label="Subgroup size of new features"
          value={size}
          inputMode="numeric"
          pattern="[1-9][0-9]{0,2}|1000"
          title="A whole number from 1 to 1000, or empty"
          hint="Empty: suggested from labels, lots and counts. Known features keep theirs."
          onChange={(event) => setSize(event.target.value)}
        />
      </FieldGroup>
      <div className={styles.finish}>
        <p role="status" className={fault || message ? styles.refused : undefined}>
          {fault || message || (isLooking ? "Reading …" : lookedWords(look))}
        </p>
        <Button type="submit" kind="main" disabled={look.problems.length > 0 || isLooking || isStarting}>
          {isStarting ? "Starting …" : "Take the file in"}
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
