import { listParts, type PartRow } from "../../db/queries/features";
import { latestNewsId } from "../../db/queries/news";
import { sourceEvents } from "../../db/queries/sources";
import { partName } from "../../lib/format/names";
import { SOURCE_KINDS } from "../../lib/measurements/series";
import { mayRun, requirePage } from "../access";
import { database } from "../database";
import { Button, LinkButton } from "../fittings/controls";
import { SelectField } from "../fittings/fields";
import { FollowNews } from "../fittings/follow-news";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { plant } from "../plant";
import styles from "./drift.module.css";
import { driftNames } from "./drift-names";
import { DriftOfPart } from "./drift-of-part";
import { wallTime } from "./event-entry";
import { LogEvent } from "./log-event";
import { movedOf, readPartDrift, strongestPart } from "./part-drift";

export const metadata = { title: "Drift" };

/** A source moves over lots, not over pieces. */
const CALM_MS = 60_000;

type SearchParams = Record<string, string | string[] | undefined>;

/** Which source has moved on a part, and what shows it. */
export default async function DriftPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/drift");
  const { part: wantedPart, kind: wantedKind, source: wantedSource, to, over } = await searchParams;
  const db = await database();
  const since = await latestNewsId(db);
  const { zone, now } = await plant();
  const [parts, events] = [await listParts(db), await sourceEvents(db, { to: now })];
  const wanted = parts.find(({ id }) => String(id) === wantedPart);
  const read = wanted ? [wanted] : parts;
  const drifts = [];
  for (const part of read) drifts.push(await readPartDrift(db, { part, events }));
  const drift = strongestPart(drifts);
  if (!drift || drift.kinds.length === 0) return <NothingYet parts={parts} wanted={wanted ?? null} />;

  const names = await driftNames(db, drift);
  const kind = SOURCE_KINDS.find((one) => one === wantedKind) ?? null;
  const asked = names.sources.find(({ id }) => String(id) === wantedSource)?.id;
  const chosen = asked ?? movedOf(drift).find((one) => kind === null || one.kind === kind)?.source ?? null;
  const ranHere = new Set(drift.kinds.flatMap(({ changes }) => changes.sources.map(({ source }) => source)));
  const choices = names.sources
    .filter(({ id, retired }) => !retired && ranHere.has(id))
    .map(({ id, kind: of, code }) => ({ value: String(id), label: `${of} ${code}` }));

  return (
    <PageFrame
      title="Drift"
      purpose="Which fixture, tool, gauge or other source has moved, each compared only with the others in the same lots."
      actions={
        mayRun(person, "logEvent") ? (
          <LogEvent
            sources={choices}
            chosen={chosen === null ? (choices[0]?.value ?? "") : String(chosen)}
            now={wallTime(now, zone)}
          />
        ) : null
      }
    >
      <FollowNews since={since} kinds={["drift", "intake"]} calmMs={CALM_MS} />
      <form action="/drift" className={styles.filter}>
        <PartField parts={parts} shown={drift.part} />
        <SelectField
          label="Kind of source"
          name="kind"
          choices={[
            { value: "", label: "all kinds" },
            ...drift.kinds.map((one) => ({ value: one.kind, label: `${one.kind}s` })),
          ]}
          defaultValue={kind ?? ""}
          key={`kind ${kind}`}
        />
        <Button type="submit">Show</Button>
      </form>
      <DriftOfPart
        drift={drift}
        kind={kind}
        chosen={chosen}
        to={typeof to === "string" ? Number(to) : null}
        overMoved={over === "moved"}
        {...{ names, events, zone }}
      />
    </PageFrame>
  );
}

function PartField({ parts, shown }: { parts: readonly PartRow[]; shown: PartRow }) {
  return (
    <SelectField
      label="Part"
      name="part"
      choices={parts.map((part) => ({ value: String(part.id), label: `${partName(part)} ${part.name}` }))}
      defaultValue={String(shown.id)}
      key={`part ${shown.id}`}
    />
  );
}

/** Another part may have something to compare, so the choice of part stays. */
function NothingYet({ parts, wanted }: { parts: readonly PartRow[]; wanted: PartRow | null }) {
  return (
    <PageFrame title="Drift">
      {wanted ? (
        <form action="/drift" className={styles.filter}>
          <PartField parts={parts} shown={wanted} />
          <Button type="submit">Show</Button>
        </form>
      ) : null}
      <Note
        kind="empty"
        title="Nothing to compare yet"
        actions={<LinkButton href="/intake">To Intake</LinkButton>}
      >
        {wanted
          ? `No measurement of ${partName(wanted)} states a lot and a source. Files that name the fixture, tool or gauge beside the lot bring them in.`
          : "Sources are compared once measurement files have come in that name lots, fixtures, tools or gauges."}
      </Note>
    </PageFrame>
  );
}
