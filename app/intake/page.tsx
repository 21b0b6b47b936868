import { Suspense } from "react";
import { listIntakes, listMappings } from "../../db/queries/intakes";
import { latestNewsId } from "../../db/queries/news";
import { mayCall, mayOpen, requirePage } from "../access";
import { database } from "../database";
import { LinkButton } from "../fittings/controls";
import { FollowNews } from "../fittings/follow-news";
import { LoadingRows } from "../fittings/loading";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { listJobs } from "../jobs/jobs";
import { words } from "../language/language";
import { plant } from "../plant";
import { BringYourOwn } from "./bring-your-own";
import { IntakeDesk } from "./desk/intake-desk";
import { HistoryTable } from "./history-table";
import { OtherWays } from "./other-ways";
import { mostUploadBytes, uploadFolder } from "./upload-folder";
import { uploadsOf } from "./uploads";

export async function generateMetadata() {
  return { title: (await words()).intake.title };
}

/** Machines may post many times a second. */
const CALM_MS = 5000;

const USUALLY_SHOWN = 50;
const MOST_SHOWN = 5000;

type SearchParams = Record<string, string | string[] | undefined>;

/** Where measurement files come in, and the history of those that did. */
export default async function IntakePage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/intake");
  const since = await latestNewsId(await database());
  const { zone, demo } = await plant();
  const { intake: said, desk } = await words();
  const isAllowed = mayCall(person, "POST /api/intake/upload");
  const jobs = listJobs().filter(({ endedAt }) => endedAt === null);
  const awaited = new Set(jobs.map(({ uploadId }) => uploadId));
  const uploads = isAllowed ? await uploadsOf(uploadFolder(), person.id) : [];
  const waiting = uploads
    .filter(({ id }) => !awaited.has(id))
    .map(({ id, name, bytes }) => ({ id, name, bytes }));
  const takenNames = (await listMappings(await database())).map(({ name }) => name);
  const limit = (await searchParams).show === "all" ? MOST_SHOWN : USUALLY_SHOWN;
  return (
    <PageFrame
      title={said.title}
      purpose={said.purpose}
      actions={
        mayOpen(person, "/intake/bench") ? <LinkButton href="/intake/bench">{said.toBench}</LinkButton> : null
      }
    >
      <FollowNews since={since} kinds={["intake"]} calmMs={CALM_MS} />
      {isAllowed ? (
        <IntakeDesk
          waiting={waiting}
          jobs={jobs}
          takenNames={takenNames}
          plantZone={zone}
          mostBytes={mostUploadBytes()}
          words={desk}
        />
      ) : (
        <Note kind="remark">{said.onlyEngineers}</Note>
      )}
      <BringYourOwn isDemo={demo} isOpen={false} />
      <Section title={said.history} id="history">
        <Suspense fallback={<LoadingRows label={said.readingHistory} />}>
          <History limit={limit} zone={zone} isAllowed={isAllowed} />
        </Suspense>
      </Section>
      <OtherWays person={person} zone={zone} />
    </PageFrame>
  );
}

async function History({ limit, zone, isAllowed }: { limit: number; zone: string; isAllowed: boolean }) {
  const intakes = await listIntakes(await database(), { limit: limit + 1 });
  const shown = intakes.slice(0, limit);
  const { intake: said } = await words();
  if (shown.length === 0) {
    return (
      <Note kind="empty" title={said.none}>
        {isAllowed ? said.noneMayBring : said.noneMayNot}
      </Note>
    );
  }
  return (
    <>
      <HistoryTable intakes={shown} zone={zone} isCut={intakes.length > limit} />
      {intakes.length > limit && limit < MOST_SHOWN ? (
        <p>
          <LinkButton href="/intake?show=all#history">{said.showLatest(MOST_SHOWN)}</LinkButton>
        </p>
      ) : null}
    </>
  );
}
