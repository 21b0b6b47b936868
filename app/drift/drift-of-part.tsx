import type { SourceEventRow } from "../../db/queries/sources";
import { partName } from "../../lib/format/names";
import { counted } from "../../lib/format/numbers";
import { dayIn } from "../../lib/format/times";
import type { SourceKind } from "../../lib/measurements/series";
import { ownCourses } from "../../lib/sources/own-course";
import { standingOffsets } from "../../lib/sources/standing-offsets";
import { Note } from "../fittings/note";
import { Section } from "../fittings/page-frame";
import { CourseChart } from "./course-chart";
import styles from "./drift.module.css";
import type { DriftNames } from "./drift-names";
import { EventTable } from "./event-table";
import { Evidence } from "./evidence";
import { type DriftQuery, GridSection, LOTS_SHOWN } from "./grid-section";
import { endedWords, MovedList } from "./moved-list";
import { eventsOf, type Moved, movedOf, type PartDrift } from "./part-drift";
import { StandingTable } from "./standing-table";
import { UnmovedLists } from "./unmoved-lists";

type Shown = {
  drift: PartDrift;
  kind: SourceKind | null;
  chosen: number | null;
  /** Id of the last lot in the grid; null for the latest. */
  to: number | null;
  /** The grid shows only the features that moved with the chosen source. */
  overMoved: boolean;
  names: DriftNames;
  events: readonly SourceEventRow[];
  zone: string;
};

/** From the one sentence to the rows behind it. */
export function DriftOfPart(shown: Shown) {
  const { drift, kind, chosen, to, overMoved, names, events, zone } = shown;
  const kinds = drift.kinds.filter((one) => kind === null || one.kind === kind);
  const moved = movedOf({ ...drift, kinds });
  const evidence = moved.find(({ source }) => source === chosen);
  const unmoved = kinds.flatMap((one) =>
    one.changes.sources
      .filter(({ state }) => state !== "moved")
      .map((source) => ({ kind: one.kind, one: source })),
  );
  const ended = kinds.flatMap(({ changes }) => changes.ended);
  const ranHere = new Set(kinds.flatMap(({ changes }) => changes.sources.map(({ source }) => source)));
  const eventsHere = events.filter(({ sourceId }) => ranHere.has(sourceId));
  const standing = kinds.flatMap((one) =>
    one.changes.sources.some(({ state }) => state !== "alone")
      ? standingOffsets({ features: one.rows, events: eventsOf(one.kind, events), changes: one.changes }).map(
          (row) => ({ ...row, kind: one.kind }),
        )
      : [],
  );
  const dayOf = (at: number) => dayIn(at, zone);
  const address = (query: DriftQuery) => {
    const asked = {
      part: drift.part.id,
      kind,
      source: chosen,
      to,
      over: overMoved ? "moved" : null,
      ...query,
    };
    const stated = Object.entries(asked).filter(([, value]) => value !== null);
    return `/drift?${new URLSearchParams(stated.map(([name, value]) => [name, String(value)]))}`;
  };
  const hrefOf = (source: number) => `${address({ source })}#evidence`;

  return (
    <>
      <Section title={moved.length === 0 ? "Nothing has moved" : `Moved on ${partName(drift.part)}`}>
        {moved.length === 0 ? (
          <Note kind="empty">{quietWords(unmoved.filter(({ one }) => one.state === "quiet").length)}</Note>
        ) : (
          <MovedList {...{ moved, names, zone, hrefOf, chosen }} />
        )}
        {ended.map((one) => (
          <p key={`${one.source} ${one.until}`} className={styles.remarkWide}>
            {endedWords(one, { names, events, dayOf })}
          </p>
        ))}
        <UnmovedLists {...{ unmoved, names, dayOf, hrefOf }} />
      </Section>
      {evidence ? <EvidenceSection {...{ drift, evidence, names }} /> : null}
      <GridSection
        {...{ kinds, chosen, to, names, events, zone, address }}
        evidence={evidence ?? null}
        overMoved={overMoved}
      />
      <Section
        title="Standing differences"
        purpose="Where a source has always stood apart from the others in the same lots. It is no drift, and nothing here is flagged."
      >
        <StandingTable rows={standing} names={names} />
      </Section>
      <Section title="Latest events" id="events">
        <EventTable events={eventsHere} zone={zone} />
      </Section>
    </>
  );
}

function quietWords(compared: number): string {
  return compared === 0
    ? "No source of this choice ran beside another one in the same lot, so none could be compared. Below stands what would bring them in."
    : `${counted(compared, "source")} ${compared === 1 ? "was" : "were"} compared within lots, and none stands out beyond 4 standard errors on two features.`;
}

function EvidenceSection({
  drift,
  evidence,
  names,
}: {
  drift: PartDrift;
  evidence: Moved;
  names: DriftNames;
}) {
  const { source, change } = evidence;
  const ofKind = drift.kinds.find(({ kind }) => kind === evidence.kind);
  if (!ofKind) return null;
  const all = ofKind.changes.lots;
  const since = all.indexOf(change.since);
  const from = Math.max(0, Math.min(all.length - LOTS_SHOWN, since - LOTS_SHOWN / 4));
  const lots = all.slice(from);
  const courses = ownCourses(ofKind.rows, {
    lots,
    changedFrom: since - from,
    moved: change.features
      .filter(({ moved }) => moved)
      .map(({ feature, sigma, difference }) => ({
        feature,
        sigma,
        sign: Math.sign(difference) * change.direction,
      })),
  });
  const beside = new Set(change.neighbours.map((one) => one.source));
  const shown = courses
    .filter((one) => one.source === source || beside.has(one.source))
    .sort((a, b) => Number(b.source === source) - Number(a.source === source))
    .map((one) => ({ ...one, code: names.source(one.source) }));
  return (
    <Section
      title={`Evidence: ${names.source(source)}`}
      id="evidence"
      purpose={`Mean of the ${change.features.filter(({ moved }) => moved).length} features that moved, read by each source itself, lot by lot. What all sources share is the lot's.`}
    >
      <CourseChart
        view={{
          lots: lots.map((id) => ({ id, code: names.lot(id) })),
          changedFrom: since - from,
          courses: shown,
        }}
        summary={`${names.source(source)} leaves ${change.neighbours.map((one) => names.source(one.source)).join(" and ")} from ${names.lot(change.since)} on, by ${change.difference.toFixed(1)} sigma.`}
      />
      <Evidence moved={evidence} names={names} from={change.sinceAt} />
    </Section>
  );
}
