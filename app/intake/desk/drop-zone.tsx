"use client";

import { type DragEvent, useEffect, useRef, useState } from "react";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Button } from "../../fittings/controls";
import { sizeWords } from "../result-words";
import styles from "./desk.module.css";

/** Takes files that are dropped on it, or chosen with its button. */
export function DropZone({
  onFiles,
  mostBytes,
  words: { drop: said, results },
}: {
  onFiles: (files: readonly File[]) => void;
  mostBytes: number;
  words: Pick<Words["desk"], "drop" | "results">;
}) {
  const input = useRef<HTMLInputElement>(null);
  const [isOver, setOver] = useState(false);
  // Files that are chosen before the page's scripts run would be lost without a word.
  const [isReady, setReady] = useState(false);
  useEffect(() => setReady(true), []);

  function drop(event: DragEvent) {
    event.preventDefault();
    setOver(false);
    onFiles([...event.dataTransfer.files]);
  }

  return (
    <section
      aria-label={said.label}
      className={isOver ? `${styles.drop} ${styles.over}` : styles.drop}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <svg className={styles.dropSign} viewBox="0 0 48 48" aria-hidden="true" focusable="false">
        <path d="M24 5v24 M14.5 20 24 29.5 33.5 20 M6 31v11h36V31" />
      </svg>
      <div>
        <p className={styles.dropWords}>
          <strong>{said.label}</strong>
          <span>{fill(said.kinds, { size: sizeWords(mostBytes, results) })}</span>
        </p>
      </div>
      <Button kind="main" onClick={() => input.current?.click()}>
        {said.choose}
      </Button>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        disabled={!isReady}
        tabIndex={-1}
        aria-label={said.input}
        accept=".csv,.txt,.tsv,.xlsx,.xlsm,.qif,.xml,text/csv,text/plain"
        onChange={(event) => {
          onFiles([...(event.target.files ?? [])]);
          // The same file may be chosen again after it was corrected.
          event.target.value = "";
        }}
      />
    </section>
  );
}
