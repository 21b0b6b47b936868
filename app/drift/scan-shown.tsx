import { use } from "react";
import type { AnsweredFlag, FlagRow } from "../../db/queries/drift";
import type { SourceEventRow } from "../../db/queries/sources";
import { bandOfFlag, latestLotsOf } from "../../lib/board/drift-band";
import { nameOf } from "../../lib/drift/sentence";
import type { StoredScan } from "../../lib/drift/stored-scan";
import { fixed } from "../../lib/format/numbers";
import { momentIn } from "../../lib/format/times";
import { Note } from "../fittings/note";
import { Section } from "../fittings/page-frame";
import { words } from "../language/language";
import { Alternatives, OnsetWords } from "./alternatives";
import { CloseFlag } from "./close-flag";
import { CourseChart } from "./course-chart";
import styles from "./drift.module.css";
import { EndedList } from "./ended-list";
import { EventShifts } from "./event-shifts";
import { EventTable } from "./event-table";
import { Evidence } from "./evidence";
import { ForecastSection } from "./forecast-section";
import { type DriftQuery, GridSection, LOTS_SHOWN } from "./grid-section";
import { MovedList } from "./moved-list";
import { QuietList } from "./quiet-list";
import type { ScanNames } from "./scan-names";
import { StandingTable } from "./standing-table";

/** From the one sentence to the figures behind it. */
export function ScanShown({
  scan,
  flags,
  ended,
  answered,
  chosen,
  names,
  events,
  zone,
  asked,
  mayClose,
}: {
  scan: StoredScan;
  flags: readonly FlagRow[];
  ended: readonly FlagRow[];
  /** Flags that events within the window ended. */
  answered: readonly AnsweredFlag[];
  chosen: FlagRow | null;
  names: ScanNames;
  events: readonly SourceEventRow[];
  zone: string;
  asked: { flag: number | null; part: number | null; to: string | null };
  mayClose: boolean;
}) {
  const address = (query: DriftQuery) => {
    const stated = Object.entries({ ...asked, ...query }).filter(([, value]) => value !== null);
    return `/drift?${new URLSearchParams(stated.map(([name, value]) => [name, String(value)]))}`;
  };
  const { driftPage: said } = use(words());
  const parts = scan.partLots.flatMap(({ part }) => names.part(part) ?? []);
  const part = parts.find(({ id }) => id === asked.part) ?? partOf(chosen, names) ?? parts[0];
  return (
    <>
      <Section title={said.moved(flags.length)}>
        {flags.length === 0 ? (
          <Note kind="empty">{said.noneOf(scan.scanned)}</Note>
        ) : (
          <MovedList
            {...{ flags, names, zone }}
            chosen={chosen?.id ?? null}
            bandOf={(flag) => bandOfFlag(flag.latest, { latestLots: latestLotsOf(scan.partLots) })}
            hrefOf={(flag) => `${address({ flag, part: null, to: null })}#evidence`}
          />
        )}
        <EndedList ended={ended} names={names} zone={zone} />
        <QuietList scan={scan} answered={answered} zone={zone} />
      </Section>
      {chosen ? <EvidenceSection {...{ scan, names, mayClose }} flag={chosen} zone={zone} /> : null}
      {part ? (
        <GridSection
          {...{ scan, part, parts, chosen, events, flags, answered, zone, address }}
          to={asked.to}
        />
      ) : null}
      <Section title={said.standing.title} purpose={said.standing.purpose}>
        <StandingTable standing={scan.standing} names={names} />
      </Section>
      {scan.atEvents.length > 0 ? (
        <Section title={said.atEvents.title} id="at-events" purpose={said.atEvents.purpose}>
          <EventShifts shifts={scan.atEvents} names={names} zone={zone} />
        </Section>
      ) : null}
      <Section title={said.latestEvents.title} id="events">
        <EventTable events={events} zone={zone} />
      </Section>
    </>
  );
}

/** The part on which most features moved with a source. */
function partOf(flag: FlagRow | null, names: ScanNames) {
  const counts = new Map<string, number>();
  for (const { part } of flag?.latest.features ?? []) counts.set(part, (counts.get(part) ?? 0) + 1);
  const [most] = [...counts].sort(([, a], [, b]) => b - a);
  return most ? names.part(most[0]) : null;
}

function EvidenceSection({
  scan,
  flag,
  names,
  zone,
  mayClose,
}: {
  scan: StoredScan;
  flag: FlagRow | AnsweredFlag;
  zone: string;
  names: ScanNames;
  mayClose: boolean;
}) {
  const { latest, source } = flag;
  const { driftPage, drift, times, trade } = use(words());
  const { evidence: said } = driftPage;
  const ended = flag.endedAt === null ? null : momentIn(flag.endedAt, zone, times);
  const who = nameOf(source, drift);
  return (
    <Section title={said.title(who)} id="evidence" purpose={said.purpose}>
      {ended === null ? null : (
        <Note kind="remark">
          {"answer" in flag ? said.over(who, trade.events[flag.answer.event], ended) : said.ended(ended)}
        </Note>
      )}
      {mayClose && ended === null ? (
        <div className={styles.close}>
          <CloseFlag key={flag.id} id={flag.id} source={who} words={driftPage.close} />
        </div>
      ) : null}
      {source.kind === "lot" ? null : <OnsetWords flag={flag} />}
      <Differences scan={scan} flag={flag} />
      <Evidence flag={flag} names={names} />
      <h3 className={styles.subhead}>{said.leads}</h3>
      <ForecastSection flag={flag} names={names} />
      {latest.kind === "spread" ? null : (
        <>
          <h3 className={styles.subhead}>{said.else}</h3>
          <Alternatives flag={flag} />
        </>
      )}
    </Section>
  );
}

/** The source against the rest of its lots, and its neighbours, which must be flat. */
function Differences({ scan, flag: { latest, source } }: { scan: StoredScan; flag: FlagRow }) {
  const { own, neighbours } = latest.evidence;
  const { evidence: said } = use(words()).driftPage;
  if (own.length === 0) return null;
  const concerned = new Set([...latest.features, ...latest.unmoved].map(({ part }) => part));
  const inParts = new Set(
    scan.partLots.filter(({ part }) => concerned.has(part)).flatMap(({ lots }) => lots),
  );
  const all = scan.lots.map(({ code }) => code).filter((code) => inParts.has(code));
  const since = all.indexOf(latest.onset.lot);
  if (since < 0) return null;
  const from = Math.max(0, Math.min(all.length - LOTS_SHOWN, since - Math.floor(LOTS_SHOWN / 3)));
  const lots = all.slice(from);
  const placeOf = (code: string) => Math.max(0, all.indexOf(code) - from);
  const beside = [...neighbours].sort((a, b) => b.lots.length - a.lots.length).slice(0, 3);
  const others = beside.map(({ source: one }) => one.id).join(", ");
  return (
    <>
      <p className={styles.remarkWide}>
        {said.differences(latest.features.length, source.id)}
        {others === "" ? said.noneBeside : said.beside(others, source.id)} {said.shaded}
      </p>
      <CourseChart
        view={{
          lots,
          changedFrom: since - from,
          interval: { from: placeOf(latest.onset.from), to: placeOf(latest.onset.to) },
          courses: [
            { code: source.id, lots: own },
            ...beside.map(({ source: one, lots: ofOne }) => ({ code: one.id, lots: ofOne })),
          ],
        }}
        summary={`${said.leaves(source.id, latest.onset.lot)}${latest.magnitude.inSigma === null ? "" : said.by(fixed(latest.magnitude.inSigma, 1))}.`}
      />
    </>
  );
}
