import { handoverContent } from "../../db/queries/handover-content";
import { handoverOf, listHandovers } from "../../db/queries/handovers";
import { latestNewsId } from "../../db/queries/news";
import { clockIn, dayIn } from "../../lib/format/times";
import { type ShiftSpan, shiftAt, shiftsBetween } from "../../lib/handover/shift-span";
import { requirePage } from "../access";
import { database } from "../database";
import { LinkTabs } from "../fittings/controls";
import { FollowNews } from "../fittings/follow-news";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { SignerFrame } from "../fittings/signer";
import { When } from "../fittings/when";
import { plant } from "../plant";
import { signersFor } from "../signer";
import styles from "./handover.module.css";
import { PrintButton } from "./print-button";
import { Sheet } from "./sheet";
import { SignForm } from "./sign-form";

export const metadata = { title: "Handover" };

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
  const asked = Number((await searchParams).shift);
  const offered = shiftsBetween({ from: now - 8 * DAY, to: now + 1, shifts, zone });
  const current = shiftAt(now, { shifts, zone });
  const span = spanAsked(asked, { shifts, zone, now }) ?? current;
  if (!span) return <NoShifts />;
  const signed = await handoverOf(db, span.from);
  const { content, coversFrom } = signed ?? (await handoverContent(db, { span, now, zone, shifts }));
  const signers = await signersFor(person);
  const earlier = await listHandovers(db, SIGNED_LISTED);

  return (
    <PageFrame
      title={`Handover, ${span.name} shift`}
      purpose={`${name}, ${spanWords(span, zone)}.`}
      facts={
        <>
          <span>
            {signed ? (
              <>
                Signed by {signed.by ?? "somebody"}, <When at={signed.signedAt} zone={zone} />
              </>
            ) : (
              "Not signed yet: written from what is known now"
            )}
          </span>
          {coversFrom < span.from ? (
            <span>
              Covers from <When at={coversFrom} zone={zone} as="short" />, when the one before was signed
            </span>
          ) : null}
        </>
      }
      actions={<PrintButton />}
    >
      {signed ? null : <FollowNews since={since} kinds={["alarm"]} />}
      <div className={styles.screenOnly}>
        <LinkTabs
          label="Shifts"
          links={offered.slice(-SHIFTS_OFFERED).map((each) => ({
            href: `/handover?shift=${each.from}`,
            label: `${each.name}, ${dayIn(each.from, zone)}`,
            isCurrent: each.from === span.from,
          }))}
        />
      </div>
      {signed && signed.remarks !== "" ? (
        <section className={styles.remarks}>
          <h2>Remarks</h2>
          <p>{signed.remarks}</p>
        </section>
      ) : null}
      <Sheet content={content} zone={zone} />
      {signed ? null : signers.own !== null || signers.others.length > 0 ? (
        <div className={styles.screenOnly}>
          <Section
            title="Sign"
            id="sign"
            purpose="From then on it stays as it is; what happens later goes into the next one."
          >
            <SignerFrame signers={signers}>
              <SignForm shiftFrom={span.from} />
            </SignerFrame>
          </Section>
        </div>
      ) : (
        <Note kind="remark">A shift lead or engineer adds remarks and signs.</Note>
      )}
      <div className={styles.screenOnly}>
        <Section title="Signed handovers" id="signed">
          {earlier.length === 0 ? (
            <Note kind="empty" title="None yet">
              Signed handovers are kept here, as they were signed.
            </Note>
          ) : (
            <ul className={styles.earlier}>
              {earlier.map((each) => (
                <li key={each.id}>
                  <Link href={`/handover?shift=${each.shiftFrom}`}>
                    {each.shift} shift, {dayIn(each.shiftFrom, zone)}
                  </Link>{" "}
                  <span className={styles.soft}>
                    {each.by ?? "somebody"}; {each.content.open.length} open alarms,{" "}
                    {each.content.holds.length} holds
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
  return (
    <PageFrame title="Handover">
      <Note kind="empty" title="The plant has no shifts yet">
        An admin enters them in the plant's settings; then each shift's handover writes itself here.
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

function spanWords({ from, to }: ShiftSpan, zone: string): string {
  const end = dayIn(from, zone) === dayIn(to, zone) ? "" : `${dayIn(to, zone)}, `;
  return `${dayIn(from, zone)}, ${clockIn(from, zone).slice(0, 5)} to ${end}${clockIn(to, zone).slice(0, 5)}`;
}
