"use client";

import { useCommonWords } from "#common-words";
import { asEntered, measured, placesWritten, whole, withUnit } from "../../../lib/format/numbers";
import { clockIn, dayIn } from "../../../lib/format/times";
import type { Refusal } from "../../../lib/intake/batch";
import type { AcceptedRow } from "../../../lib/intake/preview";
import type { CommonWords } from "../../../lib/words/common";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { Note } from "../../fittings/note";
import { type Column, Table } from "../../fittings/table";
import type { Look } from "../look";
import { RefusalTable } from "../refusal-table";
import { countedIn } from "../result-words";
import styles from "./editor.module.css";

type LookWords = Pick<Words["desk"], "preview" | "tidy" | "refusals" | "atLine">;

/** What would become of the file's first rows as it is mapped now. */
export function LookTables({
  look,
  isLooking,
  plantZone,
  words,
}: {
  look: Look;
  isLooking: boolean;
  plantZone: string;
  words: LookWords;
}) {
  const { preview: said } = words;
  const common = useCommonWords();
  const { accepted, refused, notices, problems, looked, far } = look;
  return (
    <section className={styles.look} aria-label={said.title} aria-busy={isLooking}>
      <h4>{said.title}</h4>
      {problems.length > 0 ? (
        <Note kind="not-yet" title={said.notYet}>
          <ul className={styles.notes}>
            {problems.map(({ field, message }) => (
              <li key={`${field} ${message}`}>{message}</li>
            ))}
          </ul>
        </Note>
      ) : (
        <>
          {refused.length > 0 ? (
            <RefusalTable caption={refusedCaption(refused, looked, said)} refusals={refused} words={words} />
          ) : null}
          {far ? <Note kind="remark">{far}</Note> : null}
          {notices.length > 0 ? (
            <Note kind="remark" title={said.notices}>
              <ul className={styles.notes}>
                {notices.map(({ line, message }) => (
                  <li key={`${line} ${message}`}>{fill(words.atLine, { line, message })}</li>
                ))}
              </ul>
            </Note>
          ) : null}
          <Table
            caption={
              accepted.length < looked.taken
                ? fill(said.first, { count: accepted.length, all: whole(looked.taken) })
                : said.all
            }
            columns={columnsFor(accepted, plantZone, words, common)}
            rows={accepted}
            rowKey={({ line, feature }) => `${line} ${feature.feature}`}
            empty={
              <Note kind="empty" title={said.none}>
                {said.noneWhy}
              </Note>
            }
          />
        </>
      )}
    </section>
  );
}

/** "800 measurements would be taken, 3 rows refused in the whole file." */
export function lookedWords(
  { looked, problems }: Look,
  { preview: said }: Pick<Words["desk"], "preview">,
): string {
  if (problems.length > 0) return countedIn(problems.length, said.missing);
  const { taken, refused } = said;
  return fill(said.looked, {
    taken: countedIn(looked.taken, taken),
    refused: looked.refused > 0 ? countedIn(looked.refused, refused) : refused.none,
    where: looked.isWholeFile ? said.whole : said.beginning,
  });
}

function refusedCaption(
  refused: readonly Refusal[],
  looked: Look["looked"],
  said: Words["desk"]["preview"],
): string {
  const first =
    refused.length < looked.refused
      ? fill(said.firstOf, { count: refused.length, all: whole(looked.refused) })
      : whole(looked.refused);
  const { one, many } = said.refusedCaption;
  return fill(looked.refused === 1 ? one : many, { count: first });
}

const NAMED = ["lot", "subgroup", "fixture", "tool", "machine", "gauge", "operator", "setup"] as const;

function columnsFor(
  rows: readonly AcceptedRow[],
  zone: string,
  { preview: said, tidy }: LookWords,
  common: CommonWords,
): Column<AcceptedRow>[] {
  const { heads } = said;
  const places = Math.min(6, Math.max(0, ...rows.map(({ value }) => placesWritten(value))));
  const shown = (value: number) => measured(value, { resolution: 10 ** -places });
  const columns: Column<AcceptedRow>[] = [
    { key: "line", head: heads.line, figures: true, cell: ({ line }) => line },
    { key: "part", head: heads.part, cell: ({ feature }) => <OneLine text={feature.part} /> },
    {
      key: "feature",
      head: heads.feature,
      names: true,
      cell: ({ feature }) => <span className={styles.feature}>{feature.feature}</span>,
    },
    {
      key: "value",
      head: heads.value,
      figures: true,
      cell: ({ value, feature }) => (feature.unit ? withUnit(shown(value), feature.unit) : shown(value)),
    },
    {
      key: "limits",
      head: heads.limits,
      figures: true,
      cell: ({ feature }) => limitsWords(feature, common.figures),
    },
    {
      key: "time",
      head: heads.time,
      cell: ({ takenAt }) => (
        <OneLine text={takenAt === null ? said.byOrder : timeWords(takenAt, zone, common.times)} />
      ),
    },
    { key: "piece", head: heads.piece, cell: ({ piece }) => <OneLine text={piece} /> },
    ...NAMED.map(
      (key): Column<AcceptedRow> => ({
        key,
        head: tidy.columns[key].label,
        cell: (row) => <OneLine text={row[key]} />,
      }),
    ).filter(({ key }) => rows.some((row) => row[key as (typeof NAMED)[number]] !== "")),
  ];
  if (rows.some(({ inspected }) => inspected !== null))
    columns.push({
      key: "inspected",
      head: tidy.columns.inspected.label,
      figures: true,
      cell: ({ inspected }) => (inspected === null ? "–" : asEntered(inspected)),
    });
  if (rows.some(({ partTemp }) => partTemp !== null))
    columns.push({
      key: "temperature",
      head: heads.temperature,
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

function limitsWords({ lower, upper }: AcceptedRow["feature"], words: CommonWords["figures"]): string {
  if (lower !== null && upper !== null) return words.fromTo(asEntered(lower), asEntered(upper));
  if (upper !== null) return words.atMost(asEntered(upper));
  return lower === null ? "–" : words.atLeast(asEntered(lower));
}

function timeWords(takenAt: number, zone: string, times: CommonWords["times"]): string {
  return `${dayIn(takenAt, zone, times)}, ${clockIn(takenAt, zone)}`;
}
