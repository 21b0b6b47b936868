import type { DueMessage } from "../../db/queries/messages";
import { momentIn } from "../../lib/format/times";

/** A webhook's message. Fields are only ever added. */
export function webhookBody({ id, alarm }: DueMessage, { plant }: { plant: string }): string {
  if (alarm === null) return JSON.stringify({ message: id, kind: "trial", plant });
  const { id: alarmId, part, feature, words, raisedAt, isWithdrawn } = alarm;
  return JSON.stringify({
    message: id,
    kind: "alarm raised",
    plant,
    alarm: alarmId,
    part,
    feature,
    words,
    raised_at: new Date(raisedAt).toISOString(),
    withdrawn: isWithdrawn,
    path: `/alarms/${alarmId}`,
  });
}

/** One mail for all that waits for a receiver, so that a bad lot does not fill a box. */
export function mailText(
  messages: readonly DueMessage[],
  { plant, zone }: { plant: string; zone: string },
): { subject: string; text: string } {
  const alarms = messages.flatMap(({ alarm }) => (alarm ? [alarm] : []));
  const [first] = alarms;
  if (!first)
    return {
      subject: `${plant}: trial message`,
      text: "This is a trial. Alarms of this plant will be told at this address.\n",
    };
  const subject =
    alarms.length === 1 ? `${plant}: ${first.part}, ${first.feature}` : `${plant}: ${alarms.length} alarms`;
  const lines = alarms.map(
    ({ id, part, feature, words, raisedAt, isWithdrawn }) =>
      `${momentIn(raisedAt, zone)}  ${part}, ${feature}: ${words}${isWithdrawn ? " (withdrawn since)" : ""}  Alarm ${id}`,
  );
  return {
    // A line break in a name would begin another header.
    subject: subject.replace(/[\r\n]+/g, " "),
    text: `${lines.join("\n")}\n\nA signal is a prompt to look, not a disposition. Acceptance of product follows the drawing, the customer's requirements and the shop's own procedure under its qualified people.\n`,
  };
}
