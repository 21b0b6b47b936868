import type { DueMessage } from "../../db/queries/messages";
import { storedExcursionIn } from "../../lib/evaluation/excursion-words";
import { momentIn } from "../../lib/format/times";
import { ENGLISH, type Words } from "../../lib/words/words";

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

/** `words` are those of the plant's language; English when absent. */
export type MailNames = { plant: string; zone: string; words?: Words };

/** One mail for all that waits for a receiver, so that a bad lot does not fill a box. */
export function mailText(
  messages: readonly DueMessage[],
  { plant, zone, words = ENGLISH }: MailNames,
): { subject: string; text: string } {
  const { mail: said } = words.people.messages;
  const alarms = messages.flatMap(({ alarm }) => (alarm ? [alarm] : []));
  const [first] = alarms;
  if (!first) return { subject: said.trialSubject(plant), text: `${said.trial}\n` };
  const subject =
    alarms.length === 1
      ? said.subject(plant, first.part, first.feature)
      : said.subjectOfMany(plant, alarms.length);
  const lines = alarms.map(
    ({ id, part, feature, words: excursion, raisedAt, isWithdrawn }) =>
      `${momentIn(raisedAt, zone, words.times)}  ${part}, ${feature}: ${storedExcursionIn(excursion, words.rules)}${isWithdrawn ? said.withdrawn : ""}  ${said.alarm(id)}`,
  );
  return {
    // A line break in a name would begin another header.
    subject: subject.replace(/[\r\n]+/g, " "),
    text: `${lines.join("\n")}\n\n${said.caution}\n`,
  };
}
