"use client";

import { useEffect, useRef, useState, useTransition } from "react";
import { useCommonWords } from "#common-words";
import type { BenchFeature } from "../../../lib/intake/bench-cell";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Button, LinkButton } from "../../fittings/controls";
import { CheckField, FieldGroup, TextField } from "../../fittings/fields";
import { Note } from "../../fittings/note";
import { countedIn } from "../result-words";
import { storeBenchSheet } from "./actions";
import styles from "./bench.module.css";
import type { BenchAnswer } from "./entry";
import { Grid } from "./grid";
import { emptyRow, emptySheet, isBlank, keptSheet, remarksOn, SHEET_SOURCES, type Sheet } from "./sheet";

type SheetWords = Words["bench"]["sheet"];

/** A sheet of pieces and features, kept in this browser from the first key on until it is stored. */
export function BenchSheet({
  part,
  page,
  features,
  codes,
  words,
}: {
  part: number;
  /** Which of the part's features these are, where it has many; each page keeps a sheet of its own. */
  page: number;
  features: readonly BenchFeature[];
  /** Known sources by kind, to choose from; another may be typed. */
  codes: Record<string, string[]>;
  words: SheetWords;
}) {
  const { figures } = useCommonWords();
  const place = `steadyrest bench ${part}${page > 1 ? ` ${page}` : ""}`;
  const [sheet, setSheet] = useState<Sheet>(() => emptySheet(features.length, ""));
  const [goesDown, setGoesDown] = useState(false);
  const [isAsking, setAsking] = useState(false);
  const [answer, setAnswer] = useState<BenchAnswer | null>(null);
  const [isStoring, startStoring] = useTransition();
  const isRead = useRef(false);

  // What was kept is known in the browser only, so the first picture is an empty sheet in both places.
  useEffect(() => {
    setSheet(keptSheet(readKept(place), features.length) ?? emptySheet(features.length, newDraft()));
    isRead.current = true;
  }, [place, features.length]);

  function change(next: Sheet): void {
    setSheet(next);
    setAnswer(null);
    setAsking(false);
    if (isRead.current) keep(place, isBlank(next) ? null : JSON.stringify(next));
  }

  function clear(): void {
    const { sources } = sheet;
    const next = { ...emptySheet(features.length, newDraft()), sources };
    setSheet(next);
    keep(place, null);
  }

  function store({ isSure }: { isSure: boolean }): void {
    if (far.length > 0 && !isSure) {
      setAsking(true);
      return;
    }
    setAsking(false);
    startStoring(async () => {
      const { draft, at, sources } = sheet;
      const rows = sheet.rows.map(({ piece, inspected, values }) => ({
        piece,
        inspected,
        values: Object.fromEntries(features.map(({ id }, column) => [id, values[column] ?? ""])),
      }));
      const said = await storeBenchSheet({ part, draft, at, sources, rows, isSure }).catch(() => ({
        done: false,
        message: words.unheard,
        alarms: [],
      }));
      setAnswer(said);
      if (said.done) clear();
    });
  }

  const remarks = remarksOn(sheet, features, { cells: words.cells, inspected: words.inspected, figures });
  const faults = remarks.filter(({ cell }) => cell.kind === "fault");
  const far = remarks.filter(({ cell }) => cell.kind === "far");
  const typed = sheet.rows.reduce((sum, { values }) => sum + values.filter((text) => text.trim()).length, 0);
  return (
    <div className={styles.sheet}>
      <FieldGroup legend={words.legend}>
        {SHEET_SOURCES.map((source) => (
          <SourceField
            key={source}
            kind={source}
            label={words.sources[source]}
            codes={codes[source] ?? []}
            value={sheet.sources[source]}
            onChange={(text) => change({ ...sheet, sources: { ...sheet.sources, [source]: text } })}
          />
        ))}
        <TextField
          label={words.at}
          type="datetime-local"
          step={1}
          hint={words.atHint}
          value={sheet.at}
          onChange={(event) => change({ ...sheet, at: event.target.value })}
        />
      </FieldGroup>
      <CheckField
        label={words.goesDown}
        hint={words.goesDownHint}
        checked={goesDown}
        onChange={(event) => setGoesDown(event.target.checked)}
      />
      <Grid sheet={sheet} features={features} goesDown={goesDown} onChange={change} words={words} />
      <div className={styles.remarks} role="status">
        {remarks.length === 0 ? null : (
          <ul>
            {remarks.map(({ row, column, piece, feature, cell }) => (
              <li key={`${row} ${column}`} className={styles[cell.kind]}>
                {fill(words.remark, {
                  piece: piece.trim() || fill(words.row, { row: row + 1 }),
                  feature,
                  words: cell.words,
                })}
              </li>
            ))}
          </ul>
        )}
      </div>
      {isAsking ? (
        <Question
          words={words}
          onSure={() => store({ isSure: true })}
          onCorrect={() => {
            setAsking(false);
            focusCell(far[0]);
          }}
        />
      ) : null}
      {answer ? <Answer answer={answer} alarm={words.alarm} /> : null}
      <div className={styles.actions}>
        <Button
          kind="main"
          disabled={isStoring || isAsking || typed === 0 || faults.length > 0}
          onClick={() => store({ isSure: false })}
        >
          {isStoring ? words.storing : countedIn(typed, words.store)}
        </Button>
        <Button
          onClick={() =>
            change({ ...sheet, rows: [...sheet.rows, emptyRow(features.length, sheet.rows.length + 1)] })
          }
        >
          {words.add}
        </Button>
        <Button kind="quiet" disabled={isBlank(sheet) || isStoring} onClick={clear}>
          {words.empty}
        </Button>
        <span className={styles.kept}>
          {faults.length > 0 ? words.correct : isBlank(sheet) ? "" : words.kept}
        </span>
      </div>
    </div>
  );
}

function SourceField({
  kind,
  label,
  codes,
  value,
  onChange,
}: {
  kind: string;
  label: string;
  codes: readonly string[];
  value: string;
  onChange: (text: string) => void;
}) {
  const list = `bench-${kind}`;
  return (
    <>
      <TextField
        label={label}
        list={list}
        value={value}
        maxLength={200}
        onChange={(event) => onChange(event.target.value)}
      />
      <datalist id={list}>
        {codes.map((code) => (
          <option key={code} value={code} />
        ))}
      </datalist>
    </>
  );
}

/** Asked before values so far off are stored; the answer has the focus, for a keyboard and for a reader of screens. */
function Question({
  words,
  onSure,
  onCorrect,
}: {
  words: SheetWords;
  onSure: () => void;
  onCorrect: () => void;
}) {
  const correct = useRef<HTMLDivElement>(null);
  useEffect(() => correct.current?.querySelector("button")?.focus(), []);
  return (
    <Note
      kind="refused"
      title={words.ask}
      actions={
        <div ref={correct} className={styles.actions}>
          <Button kind="main" onClick={onCorrect}>
            {words.isNot}
          </Button>
          <Button onClick={onSure}>{words.isSo}</Button>
        </div>
      }
    >
      {words.askWhy}
    </Note>
  );
}

/** Into the cell of a remark. */
function focusCell(place: { row: number; column: number } | undefined): void {
  if (place) document.querySelector<HTMLElement>(`[data-cell="${place.row}-${place.column}"]`)?.focus();
}

function Answer({ answer: { done, message, alarms }, alarm }: { answer: BenchAnswer; alarm: string }) {
  return (
    <Note
      kind={done ? "saved" : "refused"}
      title={message}
      actions={alarms.map(({ id, feature }) => (
        <LinkButton key={id} href={`/alarms/${id}`}>
          {fill(alarm, { feature })}
        </LinkButton>
      ))}
    >
      {alarms.length > 0 ? (
        <ul>
          {alarms.map(({ id, feature, words }) => (
            <li key={id}>
              {feature}: {words}
            </li>
          ))}
        </ul>
      ) : null}
    </Note>
  );
}

/** A browser may refuse to keep anything, as in a private window; then the sheet lasts as long as the page. */
function readKept(place: string): string | null {
  try {
    return localStorage.getItem(place);
  } catch {
    return null;
  }
}

function keep(place: string, text: string | null): void {
  try {
    if (text === null) localStorage.removeItem(place);
    else localStorage.setItem(place, text);
  } catch {
    // As above.
  }
}

/** `crypto.randomUUID` is there on encrypted connections only; this is the same by hand (RFC 9562, version 4). */
function newDraft(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = ((bytes[6] as number) & 0x0f) | 0x40;
  bytes[8] = ((bytes[8] as number) & 0x3f) | 0x80;
  const hex = Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [0, 8, 12, 16, 20, 32]
    .slice(0, -1)
    .map((from, i, all) => hex.slice(from, all[i + 1] ?? 32))
    .join("-");
}
