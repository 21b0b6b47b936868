import { counted, whole } from "../../format/numbers";
import { durationWords } from "../../format/times";
import { planRefusals } from "./plan-refusals";

/** Why nothing was saved, by the name under which a command refuses. */
export const refusals = {
  ...planRefusals,
  "alarm-unknown": (id: number) => `Nothing saved: there is no alarm ${id}.`,
  "alarm-changed": "Nothing saved: this alarm has changed meanwhile.",
  "alarm-closed": "Nothing saved: this alarm is closed. Open it again first.",
  "alarm-not-closed": "Nothing saved: this alarm is not closed.",
  "alarm-acknowledged": "Nothing saved: this alarm is acknowledged already.",
  "alarm-without-feature": "Nothing saved: its feature is not in the control plan any more.",
  "step-unknown": (step: number) => `Nothing saved: its reaction plan has no step ${step}.`,
  "step-so-already": (step: number, isTicked: boolean) =>
    `Nothing saved: step ${step} is ${isTicked ? "ticked" : "not ticked"} already.`,
  "pieces-none": "Nothing saved: choose at least one piece.",
  "pieces-many": (most: number, count: number) =>
    `Nothing saved: at most ${most} pieces at once; these are ${count}.`,
  "pieces-foreign": "Nothing saved: one of these pieces is none of this part. Reload the page.",
  "pieces-held": (count: number) =>
    `Nothing saved: ${count === 1 ? "this piece is" : "these are"} on hold already.`,
  "pieces-not-held": (count: number) =>
    `Nothing saved: ${counted(count, "piece")} of these ${count === 1 ? "is" : "are"} not on hold; only what is held can be released or scrapped.`,
  "pieces-why": (decision: "release" | "scrap") =>
    `Nothing saved: say why, and on whose decision, before you ${decision}.`,
  "cause-empty": "Nothing saved: choose a cause, or write a new one.",
  "shelved-already": "Nothing saved: this alarm is shelved already.",
  "shelving-past": "Nothing saved: the end of the shelving lies in the past.",
  "shelving-long": (mostMs: number) =>
    `Nothing saved: an alarm is shelved for at most ${durationWords(mostMs)}.`,
  "not-shelved": "Nothing saved: this alarm is not on the shelf any more.",
  "not-normal": "Nothing saved: the feature has not returned to normal yet.",
  "no-cause": "Nothing saved: name a cause first, even “No cause found”.",
  "no-action": "Nothing saved: write down first what was done, even “nothing”.",
  "not-verified": (good: number, wanted: number) =>
    `Nothing saved: ${good} of ${counted(wanted, "good subgroup")} since the action. Wait for the others, or say in words why it can be closed now.`,
  "say-what-done": "Nothing saved: write down what was done.",
  "say-remark": "Nothing saved: write down the remark.",
  "say-why-wait": "Nothing saved: write down why it can wait.",
  "say-why-early": "Nothing saved: write down why it comes back early.",
  "say-why-changed": "Nothing saved: write down why the measurements changed.",
  "say-why-reopened": "Nothing saved: write down why it is opened again.",

  "shift-ahead": "Nothing saved: this shift has not begun yet.",
  "handover-signed": (by: string | null) =>
    `Nothing saved: ${by ?? "somebody"} has signed this handover already. Write your remarks into the next one.`,
  "source-unknown": (id: number) => `Nothing saved: there is no source ${id}.`,
  "flag-closed": "Nothing saved: this flag is closed already. Load the page anew.",

  "account-gone": "Nothing saved: this account is not there any more.",
  "account-inactive": "Nothing saved: this account is not active.",
  "login-taken": (login: string) => `Nothing saved: the login "${login}" is taken. Choose another.`,
  "login-letters":
    "Nothing saved: a login is 1 to 40 letters, digits, dots, hyphens or underscores, and begins with a letter or digit.",
  "name-length": "Nothing saved: a name has 1 to 80 characters.",
  "roles-none": "Nothing saved: choose at least one role.",
  "roles-none-left": "Nothing saved: choose at least one role, or deactivate the account.",
  "only-admin": "Nothing saved: this is the only active admin. Make somebody else admin first.",
  "password-short": (characters: number, least: number) =>
    `Nothing saved: the password has ${characters} characters; at least ${least} are needed.`,
  "password-long": (most: number) => `Nothing saved: the password has more than ${most} characters.`,
  "set-up-ended":
    "Nothing saved: this set-up link has been used, is older than a day, or a newer one was printed. Where there is no account yet, `npm run cli -- set-up` prints a new one.",
  "invitation-ended":
    "Nothing saved: this link has been used, has run out, or a newer one took its place. Ask an admin for a new one.",
  "pin-digits": (least: number, most: number) =>
    `Nothing saved: a PIN has ${least} to ${most} digits and nothing else.`,
  "pin-even":
    "Nothing saved: this PIN is among the first that anybody tries. Choose digits without a pattern.",
  "pin-in-login": "Nothing saved: a PIN is not part of the login.",
  "pin-password":
    "Nothing saved: this is not your password. Type it again; without it nobody else can set your PIN.",
  "pin-wait": (ms: number) =>
    `Nothing saved: after several wrong PINs for this person, wait ${durationWords(ms)} before the next try, or sign in with the password.`,
  "pin-wrong":
    "Nothing saved: name and PIN do not belong together. Check both; a PIN is set on your own page.",
  "key-name": "Nothing saved: a key has a name of 1 to 80 characters that tells the machine which uses it.",
  "key-scopes": "Nothing saved: choose at least one thing that the key may do.",
  "key-past": "Nothing saved: the day on which the key ends has passed already.",
  "key-name-taken": (name: string) =>
    `Nothing saved: there is a key "${name}" already. Choose another name, or end that key first.`,
  "key-ended": "Nothing saved: this key was ended already. Reload the page.",
  "receiver-there": "Nothing saved: this receiver is there already.",
  "receiver-gone": "Nothing saved: this receiver was taken out already. Reload the page.",

  "statement-title": "Nothing saved: name the statement, such as the customer and what it is for.",
  "statement-empty": "Nothing saved: choose at least one feature.",
  "statement-features": (count: number, most: number) =>
    `Nothing saved: ${count} features are too many for one statement; at most ${most}.`,
  "statement-readings": (most: number) =>
    `Nothing saved: more than ${whole(most)} readings lie behind these features. Choose fewer, or a shorter window.`,
  "statement-part": "Nothing saved: this part is not in the control plan any more.",
  "statement-feature": "Nothing saved: one of the features is not in the control plan of this part any more.",
  "statement-lots": (codes: string) => `Nothing saved: there is no lot ${codes}.`,
  "statement-other-part": (id: number) => `Nothing saved: statement ${id} is not one of this part.`,
  "statement-superseded": (id: number, by: number) =>
    `Nothing saved: statement ${id} is superseded by statement ${by} already. Supersede that one.`,
  "statement-unknown": "Nothing saved: there is no such statement.",
  "share-recipient": "Nothing saved: name who gets the link; the record keeps it.",
  "share-past": "Nothing saved: the link would have expired already.",
  "share-ended": "Nothing saved: this link is revoked already, or there is none.",
};
