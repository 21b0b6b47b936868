import { use } from "react";
import { datedSentence } from "../../lib/drift/flag-words";
import { fixed } from "../../lib/format/numbers";
import { dayIn } from "../../lib/format/times";
import { inShownUnit, type LengthDisplay } from "../../lib/units/length";
import type { FeatureRef, PlantedFault } from "../../seed/truth";
import { shiftWords } from "../drift/event-shifts";
import { chartHref } from "../drift/evidence";
import type { ScanNames } from "../drift/scan-names";
import { Filled } from "../fittings/filled";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
import { words } from "../language/language";
import type { Found } from "./found";
import styles from "./lesson.module.css";

/** One fault: what was planted, what was found, and where to look. */
export function FaultCard({
  fault,
  found,
  names,
  zone,
  lengths,
}: {
  fault: PlantedFault;
  found: Found;
  names: ScanNames;
  zone: string;
  lengths: LengthDisplay;
}) {
  const { lesson } = use(words());
  const { card: said } = lesson;
  const { title, course, whatToExpect } = lesson.faults[fault.id];
  const { since, until, moved } = fault;
  return (
    <article className={styles.fault} aria-label={title}>
      <div>
        <h3>{title}</h3>
        <p>
          <strong>{said.planted}</strong>
          {said.since(since, until)}
          {course}
        </p>
        <p>{whatToExpect}</p>
        <ul className={styles.features}>
          {moved.slice(0, SHOWN).map((one) => (
            <li key={`${one.part} ${one.feature}`}>
              <ChartLink of={one} fault={fault} found={found} names={names} />
              {one.shift === null ? "" : `, ${plantedWords(one.shift, lengths)}`}
            </li>
          ))}
          {moved.length > SHOWN ? <li>{said.more(moved.length - SHOWN)}</li> : null}
        </ul>
      </div>
      <div className={styles.found}>
        <FoundWords found={found} since={since} zone={zone} />
      </div>
    </article>
  );
}

const SHOWN = 6;

function FoundWords({ found, since, zone }: { found: Found; since: string; zone: string }) {
  const language = use(words());
  const { lesson, times, trade } = language;
  const { card: said } = lesson;
  switch (found.is) {
    case "found": {
      const { flag, agreeing, planted, besides, isOnsetWithin } = found;
      const { latest } = flag;
      return (
        <>
          <p>
            <StateWord state="done">{said.found}</StateWord> {flag.state === "open" ? null : said.endedSince}
            {datedSentence(latest, dayIn(latest.onset.at, zone, times), language)}
          </p>
          <p>
            {said.agreement(agreeing, planted, besides.join(", "))}
            {said.onset(since, latest.onset.lot, isOnsetWithin)}
          </p>
          <p>
            <Link href={flag.state === "open" ? `/drift?flag=${flag.id}#evidence` : "/drift"}>
              {said.evidence}
            </Link>
          </p>
        </>
      );
    }
    case "past":
      return (
        <p>
          <StateWord state="trial">{said.past}</StateWord> {said.pastWhy(found.firstLot)}
        </p>
      );
    case "event":
      return (
        <p>
          {found.change === null ? (
            <StateWord state="failed">{said.notFound}</StateWord>
          ) : (
            <StateWord state="done">{said.atEvent}</StateWord>
          )}{" "}
          {said.logged(
            trade.events[found.event.event],
            found.event.code,
            found.event.note,
            dayIn(found.event.at, zone, times),
          )}
          {found.change === null
            ? said.noChange
            : said.change(shiftWords(found.change), found.change.features.length, found.change.inScope)}{" "}
          <Filled
            text={said.intended}
            holes={{ link: <Link href="/drift#at-events">{said.onDrift}</Link> }}
          />
        </p>
      );
    case "missed":
      return (
        <p>
          <StateWord state="failed">{said.notFound}</StateWord>{" "}
          {found.smallestShift === null
            ? said.nothingToCompare
            : said.wouldBeSeen(fixed(found.smallestShift, 1))}
        </p>
      );
  }
}

function ChartLink({
  of: { part, feature },
  fault,
  found,
  names,
}: {
  of: FeatureRef;
  fault: PlantedFault;
  found: Found;
  names: ScanNames;
}) {
  const row = names.featureOfPartNumber(part, feature);
  if (row === null) return <>{feature}</>;
  const at = names.lotAt(fault.since);
  const href =
    found.is === "found"
      ? chartHref(row.id, found.flag)
      : `/features/${row.id}?colour=${fault.source?.kind ?? "lot"}${at === null ? "" : `&from=${at}`}`;
  return (
    <>
      <Link href={href}>{feature}</Link>, {part}
    </>
  );
}

/** A planted shift, which is in mm, as the pages beside it show what was found. */
function plantedWords(shift: number, lengths: LengthDisplay): string {
  const { unit, length } = inShownUnit("mm", lengths);
  return shiftWords({ shift: length(shift), unit });
}
