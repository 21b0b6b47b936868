"use client";

import { type DragEvent, useEffect, useRef, useState } from "react";
import { Button } from "../../fittings/controls";
import { sizeWords } from "../result-words";
import styles from "./desk.module.css";

/** Takes files that are dropped on it, or chosen with its button. */
export function DropZone({
  onFiles,
  mostBytes,
}: {
  onFiles: (files: readonly File[]) => void;
  mostBytes: number;
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
      aria-label="Drop measurement files here"
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
          <strong>Drop measurement files here</strong>
          <span>CSV, XLSX or QIF results, several at once, up to {sizeWords(mostBytes)} each</span>
        </p>
      </div>
      <Button kind="main" onClick={() => input.current?.click()}>
        Choose files
      </Button>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        disabled={!isReady}
        tabIndex={-1}
        aria-label="Measurement files"
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
