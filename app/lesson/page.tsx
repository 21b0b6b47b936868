import { notFound } from "next/navigation";
import { latestNewsId } from "../../db/queries/news";
import { sourceEvents } from "../../db/queries/sources";
import type { Words } from "../../lib/words/words";
import { PLANTED_FAULTS } from "../../seed/truth";
import { requirePage } from "../access";
import { database } from "../database";
import { scanNames } from "../drift/scan-names";
import { FollowNews } from "../fittings/follow-news";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { words } from "../language/language";
import { plant } from "../plant";
import { endedFlagsShown, latestScanShown, openFlagsShown } from "../shown/lengths";
import { FaultCard } from "./fault-card";
import { lookFor } from "./found";
import styles from "./lesson.module.css";

export async function generateMetadata() {
  return { title: (await words()).lesson.title };
}

const CALM_MS = 60_000;
const FLAGS_LOOKED_THROUGH = 200;

/** What was planted in the demo beside what the scan found, and small tasks for a newcomer. Only in the demo. */
export default async function LessonPage() {
  await requirePage("/lesson");
  const { demo, zone, now, lengths } = await plant();
  if (!demo) notFound();
  const { lesson: said, frame } = await words();
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
    <PageFrame title={said.title} purpose={said.purpose}>
      <FollowNews since={since} kinds={["drift"]} calmMs={CALM_MS} />
      <Section title={said.tasks.title} purpose={said.tasks.purpose}>
        <ol className={styles.tasks}>
          {TASKS.map(({ task, room, at = room }) => (
            <li key={task}>
              {said.tasks[task]} <Link href={at}>{frame.roomNames[room]}</Link>
            </li>
          ))}
        </ol>
      </Section>
      <Section title={said.compare.title} purpose={said.compare.purpose}>
        {scan === null ? (
          <Note kind="not-yet">{said.compare.notYet}</Note>
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

const TASKS: readonly {
  task: Exclude<keyof Words["lesson"]["tasks"], "title" | "purpose">;
  room: keyof Words["frame"]["roomNames"];
  /** Where in the room. */
  at?: string;
}[] = [
  { task: "locator", room: "/" },
  { task: "forecast", room: "/drift" },
  { task: "edge", room: "/features" },
  { task: "casting", room: "/drift", at: "/drift#grid" },
  { task: "answer", room: "/drift" },
  { task: "ownFile", room: "/intake" },
];
