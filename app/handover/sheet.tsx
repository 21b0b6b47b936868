import { type ReactNode, use } from "react";
import { type HandoverContent, openCounts, serialsWords } from "../../lib/handover/handover";
import type { Words } from "../../lib/words/words";
import { Filled } from "../fittings/filled";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import { words } from "../language/language";
import styles from "./handover.module.css";

/** More lines than these would not fit on one printed page; the others are counted. */
const MOST = { open: 10, watch: 6, holds: 6, done: 8 };
const DEEDS_SHOWN = 6;

/** What a handover says, for the screen and for one printed page. */
export function Sheet({ content, zone }: { content: HandoverContent; zone: string }) {
  const { handover: said } = use(words());
  const { open, watch, holds, done, raised, closed, measurements } = content;
  return (
    <div className={styles.sheet}>
      <p className={styles.sum}>{said.sum({ measurements, raised, closed, ...openCounts(open) })}</p>
      <Part title={said.parts.watch} none={said.none.watch} rows={watch} most={MOST.watch}>
        {({ alarmId, words: line }) =>
          alarmId === null ? line : <Link href={`/alarms/${alarmId}`}>{line}</Link>
        }
      </Part>
      <Part title={said.parts.open} none={said.none.open} rows={open} most={MOST.open}>
        {({ alarmId, feature, part, state, words: happened, since, next }) => (
          <>
            <StateWord state={state} /> <Link href={`/alarms/${alarmId}`}>{feature}</Link>, {part},{" "}
            <Filled text={said.since} holes={{ when: <When at={since} zone={zone} as="short" /> }} />.{" "}
            {happened} {next}
          </>
        )}
      </Part>
      <Part title={said.parts.holds} none={said.none.open} rows={holds} most={MOST.holds}>
        {({ alarmId, feature, serials, since, by }) => (
          <>
            <Link href={`/alarms/${alarmId}`}>{feature}</Link>
            <Filled
              text={said.held(serials.length, serialsWords(serials, said), by)}
              holes={{ when: <When at={since} zone={zone} as="short" /> }}
            />
          </>
        )}
      </Part>
      <Part title={said.parts.done} none={said.none.done} rows={done} most={MOST.done}>
        {({ at, alarmId, subject, by, deeds }) => (
          <>
            <When at={at} zone={zone} as="short" />, {by}:{" "}
            {alarmId === null ? subject : <Link href={`/alarms/${alarmId}`}>{subject}</Link>}:{" "}
            {deedsWords(deeds, said)}
          </>
        )}
      </Part>
    </div>
  );
}

function deedsWords(deeds: readonly string[], { andMore }: Words["handover"]): string {
  const rest = deeds.length - DEEDS_SHOWN;
  return `${deeds.slice(0, DEEDS_SHOWN).join("; ")}${rest > 0 ? `; ${andMore(rest)}` : ""}`;
}

function Part<Row>({
  title,
  none,
  rows,
  most,
  children,
}: {
  title: string;
  none: string;
  rows: readonly Row[];
  most: number;
  children: (row: Row) => ReactNode;
}) {
  const { handover: said, alarms } = use(words());
  const shown = rows.slice(0, most);
  return (
    <section className={styles.part}>
      <h2>{title}</h2>
      {rows.length === 0 ? <p className={styles.soft}>{none}</p> : null}
      <ul>
        {shown.map((row) => (
          <li key={JSON.stringify(row)}>{children(row)}</li>
        ))}
      </ul>
      {rows.length > shown.length ? (
        <p className={styles.soft}>
          <Filled
            text={said.moreRows(rows.length - shown.length)}
            holes={{ alarms: <Link href="/alarms">{alarms.title}</Link> }}
          />
        </p>
      ) : null}
    </section>
  );
}
