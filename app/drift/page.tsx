import { isScanOutdated } from "../../db/queries/drift";
import { latestNewsId } from "../../db/queries/news";
import { listSources, type SourceRow, sourceEvents } from "../../db/queries/sources";
import { isOf } from "../../lib/drift/tool-code";
import type { Words } from "../../lib/words/words";
import { mayRun, requirePage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { FollowNews } from "../fittings/follow-news";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { scanNow } from "../jobs/scans";
import { words } from "../language/language";
import { plant } from "../plant";
import { answeredFlagsShown, endedFlagsShown, latestScanShown, openFlagsShown } from "../shown/lengths";
import { wallTime } from "./event-entry";
import { LogEvent } from "./log-event";
import { scanNames } from "./scan-names";
import { ScanShown } from "./scan-shown";
import { ScanState } from "./scan-state";

export async function generateMetadata() {
  return { title: (await words()).driftPage.title };
}

/** Measurements alone change nothing here: the scan tells when it has something new. */
const CALM_MS = 60_000;

const ENDED_SHOWN = 10;

type SearchParams = Record<string, string | string[] | undefined>;

/** Which sources have moved, and what shows it: the stored scan, nothing is computed here. */
export default async function DriftPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/drift");
  const { flag: wantedFlag, part, to } = await searchParams;
  const db = await database();
  const since = await latestNewsId(db);
  const { zone, now, demo } = await plant();
  const { driftPage: said, trade } = await words();
  const scan = await latestScanShown(db);
  const flags = await openFlagsShown(db);
  const names = await scanNames(db, { scan: scan?.result ?? null, zone });
  const ended = await endedFlagsShown(db, { limit: ENDED_SHOWN });
  const answered = await answeredFlagsShown(db, { endedFrom: scan?.result.lots[0]?.at ?? now });
  // A flag that an event has just ended stays in sight for who asked for it.
  const chosen =
    [...flags, ...answered, ...ended].find(({ id }) => String(id) === wantedFlag) ?? flags[0] ?? null;
  const sources = (await listSources(db)).filter(({ retired }) => !retired);
  const first = sources.find((one) => chosen !== null && isOf(one, chosen.source)) ?? sources[0];

  return (
    <PageFrame
      term="drift"
      title={said.title}
      purpose={said.purpose}
      facts={
        <>
          <ScanState
            scan={scan}
            isOutdated={await isScanOutdated(db)}
            now={scanNow()}
            zone={zone}
            maySteer={mayRun(person, "cancelScan")}
          />
          {demo ? <Link href="/lesson">{said.planted}</Link> : null}
        </>
      }
      actions={
        first && mayRun(person, "logEvent") ? (
          <LogEvent
            sources={sources.map((source) => choiceOf(source, trade.sources))}
            chosen={String(first.id)}
            flagOf={Object.fromEntries(
              sources.flatMap((source) => {
                const own = flags.find((flag) => isOf(source, flag.source));
                return own ? [[source.id, own.id]] : [];
              }),
            )}
            now={wallTime(now, zone)}
            words={said.log}
          />
        ) : null
      }
    >
      <FollowNews since={since} kinds={["drift", "intake"]} calmMs={CALM_MS} />
      {scan === null || scan.result.partLots.length === 0 ? (
        <Note
          kind="empty"
          title={said.empty}
          actions={<LinkButton href="/intake">{said.toIntake}</LinkButton>}
        >
          {said.emptyWhy}
        </Note>
      ) : (
        <ScanShown
          scan={scan.result}
          {...{ flags, chosen, names, zone }}
          {...{ ended, answered }}
          events={await sourceEvents(db, { to: now })}
          asked={{ flag: chosen?.id ?? null, part: idOf(part), to: typeof to === "string" ? to : null }}
          mayClose={mayRun(person, "closeDriftFlag")}
        />
      )}
    </PageFrame>
  );
}

function choiceOf({ id, kind, code }: SourceRow, kinds: Words["trade"]["sources"]) {
  return { value: String(id), label: `${kinds[kind]} ${code}` };
}

function idOf(text: string | string[] | undefined): number | null {
  const id = Number(text);
  return typeof text === "string" && Number.isInteger(id) && id > 0 ? id : null;
}
