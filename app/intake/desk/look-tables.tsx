"use client";

import { counted, measured, placesWritten, whole, withUnit } from "../../../lib/format/numbers";
import { clockIn, dayIn } from "../../../lib/format/times";
import type { Refusal } from "../../../lib/intake/batch";
import type { AcceptedRow } from "../../../lib/intake/preview";
import { Note } from "../../fittings/note";
import { type Column, Table } from "../../fittings/table";
import type { Look } from "../look";
import { RefusalTable } from "../refusal-table";
import styles from "./editor.module.css";

/** What would become of the file's first rows as it is mapped now. */
export function LookTables({
  look,
  isLooking,
  plantZone,
}: {
  look: Look;
  isLooking: boolean;
  plantZone: string;
}) {
  const { accepted, refused, notices, problems, looked } = look;
  return (
    <section className={styles.look} aria-label="Preview" aria-busy={isLooking}>
      <h4>Preview</h4>
      {problems.length > 0 ? (
        <Note kind="not-yet" title="The file cannot be read with this mapping yet">
          <ul className={styles.notes}>
            {problems.map(({ field, message }) => (
              <li key={`${field} ${message}`}>{message}</li>
            ))}
          </ul>
        </Note>
      ) : (
        <>
          {refused.length > 0 ? (
            <RefusalTable caption={refusedCaption(refused, looked)} refusals={refused} />
          ) : null}
          {notices.length > 0 ? (
            <Note kind="remark" title="Worth knowing; these rows are taken">
              <ul className={styles.notes}>
                {notices.map(({ line, message }) => (
                  <li key={`${line} ${message}`}>
                    Line {line}: {message}
                  </li>
                ))}
              </ul>
            </Note>
          ) : null}
          <Table
            caption={
              accepted.length < looked.taken
                ? `The first ${accepted.length} of ${whole(looked.taken)} measurements, as they would be taken`
                : "Measurements as they would be taken"
            }
            columns={columnsFor(accepted, plantZone)}
            rows={accepted}
            rowKey={({ line, feature }) => `${line} ${feature.feature}`}
            empty={
              <Note kind="empty" title="No row could be taken">
                Look at the reasons above: usually the decimal mark, the date format or a column is another.
              </Note>
            }
          />
        </>
      )}
    </section>
  );
}

/** "800 measurements would be taken, 3 rows refused in the whole file." */
export function lookedWords({ looked, problems }: Look): string {
  if (problems.length > 0)
    return problems.length === 1
      ? "One thing is missing before it can be taken in."
      : `${problems.length} things are missing before it can be taken in.`;
  const part = looked.isWholeFile
    ? "in the whole file"
    : "in its beginning; the rest is read as it is taken in";
  const refused = looked.refused > 0 ? `${counted(looked.refused, "row")} refused` : "no row refused";
  return `${counted(looked.taken, "measurement")} would be taken, ${refused} ${part}.`;
}

function refusedCaption(refused: readonly Refusal[], looked: Look["looked"]): string {
  const first =
    refused.length < looked.refused
      ? `The first ${refused.length} of ${whole(looked.refused)}`
      : whole(looked.refused);
  return `${first} ${looked.refused === 1 ? "row" : "rows"} that would be refused. They never stop a file and can be downloaded afterwards`;
}

const NAMED = [
  ["lot", "Lot"],
  ["subgroup", "Subgroup"],
  ["fixture", "Fixture"],
  ["tool", "Tool"],
  ["machine", "Machine"],
  ["gauge", "Gauge"],
  ["operator", "Operator"],
  ["setup", "Setup"],
] as const;

function columnsFor(rows: readonly AcceptedRow[], zone: string): Column<AcceptedRow>[] {
  const places = Math.min(6, Math.max(0, ...rows.map(({ value }) => placesWritten(value))));
  const shown = (value: number) => measured(value, { resolution: 10 ** -places });
  const columns: Column<AcceptedRow>[] = [
    { key: "line", head: "Line", figures: true, cell: ({ line }) => line },
    { key: "part", head: "Part", cell: ({ feature }) => <OneLine text={feature.part} /> },
    {
      key: "feature",
      head: "Feature",
      names: true,
      cell: ({ feature }) => <span className={styles.feature}>{feature.feature}</span>,
    },
    {
      key: "value",
      head: "Value",
      figures: true,
      cell: ({ value, feature }) => (feature.unit ? withUnit(shown(value), feature.unit) : shown(value)),
    },
    { key: "limits", head: "Tolerance", figures: true, cell: ({ feature }) => limitsWords(feature) },
    { key: "time", head: "Time", cell: ({ takenAt }) => <OneLine text={timeWords(takenAt, zone)} /> },
    { key: "piece", head: "Piece", cell: ({ piece }) => <OneLine text={piece} /> },
    ...NAMED.map(
      ([key, head]): Column<AcceptedRow> => ({ key, head, cell: (row) => <OneLine text={row[key]} /> }),
    ).filter(({ key }) => rows.some((row) => row[key as (typeof NAMED)[number][0]] !== "")),
  ];
  if (rows.some(({ partTemp }) => partTemp !== null))
    columns.push({
      key: "temperature",
      head: "Temp.",
      figures: true,
      cell: ({ partTemp }) => (partTemp === null ? "–" : `${measured(partTemp, { resolution: 0.1 })} °C`),
    });
  const hasLimits = rows.some(({ feature }) => feature.lower !== null || feature.upper !== null);
  return columns.filter(({ key }) => key !== "limits" || hasLimits);
}

/** Codes and times are compared line by line: they do not break. */
function OneLine({ text }: { text: string }) {
  return <span className={styles.oneLine}>{text || "–"}</span>;
}

function limitsWords({ lower, upper }: AcceptedRow["feature"]): string {
  if (lower !== null && upper !== null) return `${lower} to ${upper}`;
  if (upper !== null) return `at most ${upper}`;
  return lower === null ? "–" : `at least ${lower}`;
}

function timeWords(takenAt: number | null, zone: string): string {
  return takenAt === null ? "by file order" : `${dayIn(takenAt, zone)}, ${clockIn(takenAt, zone)}`;
}
