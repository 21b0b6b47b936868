import { notFound } from "next/navigation";
import { latestNewsId } from "../../db/queries/news";
import { sourceEvents } from "../../db/queries/sources";
import { PLANTED_FAULTS } from "../../seed/truth";
import { requirePage } from "../access";
import { database } from "../database";
import { scanNames } from "../drift/scan-names";
import { FollowNews } from "../fittings/follow-news";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { plant } from "../plant";
import { endedFlagsShown, latestScanShown, openFlagsShown } from "../shown/lengths";
import { FaultCard } from "./fault-card";
import { lookFor } from "./found";
import styles from "./lesson.module.css";

export const metadata = { title: "Lesson" };

const CALM_MS = 60_000;
const FLAGS_LOOKED_THROUGH = 200;

/** What was planted in the demo beside what the scan found, and small tasks for a newcomer. Only in the demo. */
export default async function LessonPage() {
  await requirePage("/lesson");
  const { demo, zone, now, lengths } = await plant();
  if (!demo) notFound();
  const db = await database();
  const since = await latestNewsId(db);
  const scan = await latestScanShown(db);
  const flags = [
    ...(await openFlagsShown(db)),
    ...(await endedFlagsShown(db, { limit: FLAGS_LOOKED_THROUGH })),
  ];
  const events = await sourceEvents(db, { to: now });
  const names = await scanNames(db, { scan: scan?.result ?? null, zone });
  return (
    <PageFrame
      title="Lesson"
      purpose="The demo plant has five faults planted in it. Find them yourself, then compare what was planted with what the program says."
    >
      <FollowNews since={since} kinds={["drift"]} calmMs={CALM_MS} />
      <Section title="Tasks" purpose="Each takes a few minutes on the real screens. The answers are below.">
        <ol className={styles.tasks}>
          {TASKS.map(({ href, where, task }) => (
            <li key={task}>
              {task} <Link href={href}>{where}</Link>
            </li>
          ))}
        </ol>
      </Section>
      <Section
        title="Planted and found"
        purpose="On the left what was planted, on the right what the latest scan of the measurements found, read as this page was made."
      >
        {scan === null ? (
          <Note kind="not-yet">The first scan is being made; this page shows it by itself.</Note>
        ) : (
          PLANTED_FAULTS.map((fault) => (
            <FaultCard
              key={fault.id}
              fault={fault}
              found={lookFor(fault, { scan: scan.result, flags, events })}
              names={names}
              zone={zone}
              lengths={lengths}
            />
          ))
        )}
      </Section>
    </PageFrame>
  );
}

const TASKS = [
  {
    href: "/",
    where: "Shift board",
    task: "Find the worn locator within five minutes: which fixture moves housing H-210, since which lot, and which of its features do not follow?",
  },
  {
    href: "/drift",
    where: "Drift",
    task: "Say how many pieces are left until the first feature meets its tolerance limit, with the interval, and what a repair today would save.",
  },
  {
    href: "/features",
    where: "Features",
    task: "Open a bore of H-320 and colour its chart by tool: what happens between two changes of the edge, and since when does it happen faster?",
  },
  {
    href: "/drift#grid",
    where: "Drift",
    task: "One lot of castings was different on bracket BB-40. Find it, and say why nobody should touch the fixture.",
  },
  {
    href: "/drift",
    where: "Drift",
    task: "As a shift lead, log “locator pin replaced” on the fixture and watch the scan answer.",
  },
  {
    href: "/intake",
    where: "Intake",
    task: "Now a file of your own: drop it on Intake, tell once which column is which, and open the chart of its first feature.",
  },
] as const;
