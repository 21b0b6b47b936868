import type { ReactNode } from "react";
import { counted, whole } from "../../lib/format/numbers";
import { type HandoverContent, serialsWords } from "../../lib/handover/handover";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
import { When } from "../fittings/when";
import styles from "./handover.module.css";

/** More lines than these would not fit on one printed page; the others are counted. */
const MOST = { open: 10, watch: 6, holds: 6, done: 8 };
const DEEDS_SHOWN = 6;

/** What a handover says, for the screen and for one printed page. */
export function Sheet({ content, zone }: { content: HandoverContent; zone: string }) {
  const { open, watch, holds, done, raised, closed, measurements } = content;
  return (
    <div className={styles.sheet}>
      <p className={styles.sum}>
        {whole(measurements)} measurements; {counted(raised, "alarm")} raised, {closed} closed; {open.length}{" "}
        open now.
      </p>
      <Part title="What to watch" none="Nothing in particular." rows={watch} most={MOST.watch}>
        {({ alarmId, words }) =>
          alarmId === null ? words : <Link href={`/alarms/${alarmId}`}>{words}</Link>
        }
      </Part>
      <Part title="Open alarms" none="None." rows={open} most={MOST.open}>
        {({ alarmId, feature, part, state, words, since, next }) => (
          <>
            <StateWord state={state} /> <Link href={`/alarms/${alarmId}`}>{feature}</Link>, {part}, since{" "}
            <When at={since} zone={zone} as="short" />. {words} {next}
          </>
        )}
      </Part>
      <Part title="Pieces on hold" none="None." rows={holds} most={MOST.holds}>
        {({ alarmId, feature, serials, since, by }) => (
          <>
            <Link href={`/alarms/${alarmId}`}>{feature}</Link>: {counted(serials.length, "piece")} (
            {serialsWords(serials)}), held by {by} since <When at={since} zone={zone} as="short" />
          </>
        )}
      </Part>
      <Part title="What was done" none="Nobody wrote anything down." rows={done} most={MOST.done}>
        {({ at, alarmId, subject, by, deeds }) => (
          <>
            <When at={at} zone={zone} as="short" />, {by}:{" "}
            {alarmId === null ? subject : <Link href={`/alarms/${alarmId}`}>{subject}</Link>}:{" "}
            {deedsWords(deeds)}
          </>
        )}
      </Part>
    </div>
  );
}

function deedsWords(deeds: readonly string[]): string {
  const rest = deeds.length - DEEDS_SHOWN;
  return `${deeds.slice(0, DEEDS_SHOWN).join("; ")}${rest > 0 ? `; and ${rest} more` : ""}`;
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
          And {rows.length - shown.length} more; see <Link href="/alarms">Alarms</Link>.
        </p>
      ) : null}
    </section>
  );
}
