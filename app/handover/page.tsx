import { use } from "react";
import { handoverContent } from "../../db/queries/handover-content";
import { handoverOf, listHandovers } from "../../db/queries/handovers";
import { latestNewsId } from "../../db/queries/news";
import { clockIn, dayIn } from "../../lib/format/times";
import { openCounts } from "../../lib/handover/handover";
import { type ShiftSpan, shiftAt, shiftsBetween } from "../../lib/handover/shift-span";
import type { Words } from "../../lib/words/words";
import { requirePage } from "../access";
import { database } from "../database";
import { LinkTabs } from "../fittings/controls";
import { Filled } from "../fittings/filled";
import { FollowNews } from "../fittings/follow-news";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { SignerFrame } from "../fittings/signer";
import { When } from "../fittings/when";
import { words } from "../language/language";
import { plant } from "../plant";
import { signersFor } from "../signer";
import styles from "./handover.module.css";
import { PrintButton } from "./print-button";
import { Sheet } from "./sheet";
import { SignForm } from "./sign-form";

export async function generateMetadata() {
  return { title: (await words()).handover.tab };
}

const DAY = 86_400_000;
/** Shifts to choose from: the one under way and those before it. */
const SHIFTS_OFFERED = 4;
const SIGNED_LISTED = 30;

/** A shift's handover. It writes itself; a person adds remarks and signs, and then it stays as it is. */
export default async function HandoverPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const person = await requirePage("/handover");
  const db = await database();
  const since = await latestNewsId(db);
  const { now, zone, shifts, name } = await plant();
  const everyWord = await words();
  const { handover: said, alarms, times } = everyWord;
  const asked = Number((await searchParams).shift);
  const offered = shiftsBetween({ from: now - 8 * DAY, to: now + 1, shifts, zone });
  const current = shiftAt(now, { shifts, zone });
  const span = spanAsked(asked, { shifts, zone, now }) ?? current;
  if (!span) return <NoShifts />;
  const signed = await handoverOf(db, span.from);
  const { content, coversFrom } =
    signed ?? (await handoverContent(db, { span, now, zone, shifts, words: everyWord }));
  const signers = await signersFor(person);
  const earlier = await listHandovers(db, SIGNED_LISTED);

  return (
    <PageFrame
      title={said.title(span.name)}
      purpose={`${name}, ${spanWords(span, zone, everyWord)}.`}
      facts={
        <>
          <span>
            {signed ? (
              <Filled
                text={said.signedBy(signed.by ?? alarms.card.somebody)}
                holes={{ when: <When at={signed.signedAt} zone={zone} /> }}
              />
            ) : (
              said.notSigned
            )}
          </span>
          {coversFrom < span.from ? (
            <span>
              <Filled
                text={said.coversFrom}
                holes={{ when: <When at={coversFrom} zone={zone} as="short" /> }}
              />
            </span>
          ) : null}
        </>
      }
      actions={<PrintButton label={said.print} />}
    >
      {signed ? null : <FollowNews since={since} kinds={["alarm"]} />}
      <div className={styles.screenOnly}>
        <LinkTabs
          label={said.shifts}
          links={offered.slice(-SHIFTS_OFFERED).map((each) => ({
            href: `/handover?shift=${each.from}`,
            label: `${each.name}, ${dayIn(each.from, zone, times)}`,
            isCurrent: each.from === span.from,
          }))}
        />
      </div>
      {signed && signed.remarks !== "" ? (
        <section className={styles.remarks}>
          <h2>{said.remarks}</h2>
          <p>{signed.remarks}</p>
        </section>
      ) : null}
      <Sheet content={content} zone={zone} />
      {signed ? null : signers.own !== null || signers.others.length > 0 ? (
        <div className={styles.screenOnly}>
          <Section title={said.sign} id="sign" purpose={said.signPurpose}>
            <SignerFrame signers={signers}>
              <SignForm shiftFrom={span.from} words={said.form} />
            </SignerFrame>
          </Section>
        </div>
      ) : (
        <Note kind="remark">{said.whoSigns}</Note>
      )}
      <div className={styles.screenOnly}>
        <Section title={said.signed} id="signed">
          {earlier.length === 0 ? (
            <Note kind="empty" title={said.noneYet}>
              {said.kept}
            </Note>
          ) : (
            <ul className={styles.earlier}>
              {earlier.map((each) => (
                <li key={each.id}>
                  <Link href={`/handover?shift=${each.shiftFrom}`}>
                    {said.shift(each.shift, dayIn(each.shiftFrom, zone, times))}
                  </Link>{" "}
                  <span className={styles.soft}>
                    {each.by ?? alarms.card.somebody};{" "}
                    {said.kinds({ ...openCounts(each.content.open), holds: each.content.holds.length })}
                  </span>
                </li>
              ))}
            </ul>
          )}
        </Section>
      </div>
    </PageFrame>
  );
}

function NoShifts() {
  const { handover: said } = use(words());
  return (
    <PageFrame title={said.tab}>
      <Note kind="empty" title={said.noShifts}>
        {said.enterShifts}
      </Note>
    </PageFrame>
  );
}

function spanAsked(
  from: number,
  { shifts, zone, now }: { shifts: Parameters<typeof shiftsBetween>[0]["shifts"]; zone: string; now: number },
): ShiftSpan | null {
  if (!Number.isSafeInteger(from) || from > now || from <= 0) return null;
  return shiftsBetween({ from, to: from + 1, shifts, zone }).find((each) => each.from === from) ?? null;
}

function spanWords({ from, to }: ShiftSpan, zone: string, { handover, times }: Words): string {
  const day = (at: number) => dayIn(at, zone, times);
  const end = day(from) === day(to) ? "" : `${day(to)}, `;
  return handover.fromTo(
    `${day(from)}, ${clockIn(from, zone).slice(0, 5)}`,
    `${end}${clockIn(to, zone).slice(0, 5)}`,
  );
}
