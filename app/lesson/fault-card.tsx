import { datedSentence } from "../../lib/drift/flag-words";
import { counted, fixed } from "../../lib/format/numbers";
import { dayIn } from "../../lib/format/times";
import { inShownUnit, type LengthDisplay } from "../../lib/units/length";
import type { FeatureRef, PlantedFault } from "../../seed/truth";
import { shiftWords } from "../drift/event-shifts";
import { chartHref } from "../drift/evidence";
import type { ScanNames } from "../drift/scan-names";
import { Link } from "../fittings/link";
import { StateWord } from "../fittings/state-word";
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
  const { title, since, until, course, whatToExpect, moved } = fault;
  return (
    <article className={styles.fault} aria-label={title}>
      <div>
        <h3>{title}</h3>
        <p>
          <strong>Planted</strong> from lot {since}
          {until === null ? " on" : ` until before ${until}`}: {course}
        </p>
        <p>{whatToExpect}</p>
        <ul className={styles.features}>
          {moved.slice(0, SHOWN).map((one) => (
            <li key={`${one.part} ${one.feature}`}>
              <ChartLink of={one} fault={fault} found={found} names={names} />
              {one.shift === null ? "" : `, ${plantedWords(one.shift, lengths)}`}
            </li>
          ))}
          {moved.length > SHOWN ? <li>and {counted(moved.length - SHOWN, "more feature")}</li> : null}
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
  switch (found.is) {
    case "found": {
      const { flag, agreeing, planted, besides, isOnsetWithin } = found;
      const { latest } = flag;
      return (
        <>
          <p>
            <StateWord state="done">Found</StateWord>{" "}
            {flag.state === "open" ? null : "The flag has ended since. "}
            {datedSentence(latest, dayIn(latest.onset.at, zone))}
          </p>
          <p>
            It names {agreeing} of the {counted(planted, "feature")} planted
            {besides.length === 0 ? " and no other" : `, and besides ${besides.join(", ")}`}. Planted since{" "}
            {since}, found since {latest.onset.lot}: {isOnsetWithin ? "within" : "outside"} the interval it
            gives.
          </p>
          <p>
            <Link href={flag.state === "open" ? `/drift?flag=${flag.id}#evidence` : "/drift"}>
              See the evidence
            </Link>
          </p>
        </>
      );
    }
    case "past":
      return (
        <p>
          <StateWord state="trial">Not in the latest scan</StateWord> The scan looks back on the last 60 lots
          of each part, here from {found.firstLot} on, and this was before. The charts of the features still
          show it, and features charted at 20 °C stay flat where those charted as measured follow the weather.
        </p>
      );
    case "event":
      return (
        <p>
          {found.change === null ? (
            <StateWord state="failed">Not found</StateWord>
          ) : (
            <StateWord state="done">Found as a change at an event</StateWord>
          )}{" "}
          As it began, somebody logged “{found.event.event}” for {found.event.code}
          {found.event.note === "" ? "" : ` (${found.event.note})`} on {dayIn(found.event.at, zone)}.
          {found.change === null
            ? " Nothing was seen to change with it."
            : ` Since then it reads ${shiftWords(found.change)}, clearly so on ${found.change.features.length} of ${counted(found.change.inScope, "feature")}.`}{" "}
          The scan takes what changes with a logged event as intended and raises no flag: a person has to
          confirm it, <Link href="/drift#at-events">on the drift page</Link>.
        </p>
      );
    case "missed":
      return (
        <p>
          <StateWord state="failed">Not found</StateWord>{" "}
          {found.smallestShift === null
            ? "The scan could not compare it with anything."
            : `A step of a single feature would have been seen from ${fixed(found.smallestShift, 1)} sigma on.`}
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
