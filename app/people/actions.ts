"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import {
  addInvited,
  changePassword as change,
  changePerson as changeAccount,
  endSessionById,
  invite,
} from "../../db/people/manage";
import { setPin } from "../../db/people/pins";
import { checkPassword } from "../../db/people/sign-in";
import { durationWords } from "../../lib/format/times";
import { isRole, type Role } from "../../lib/people/roles";
import { refusalIn } from "../../lib/words/refusal";
import type { Words } from "../../lib/words/words";
import { requireAction } from "../access";
import { database } from "../database";
import { words } from "../language/language";
import { sessionToken } from "../session";
import { requestOrigin } from "./origin";

/** `link`: the path of a one-time link, in the one answer that made it. */
export type PeopleAnswer = { done: boolean; message: string; link: string | null };

const secret = z.string().max(1000);
const PinForm = z.object({ pin: secret, again: secret, password: secret });
const PasswordForm = z.object({ password: secret, wanted: secret, again: secret });
const PersonForm = z.object({
  login: z.string().max(100).optional(),
  name: z.string().max(200),
  reason: z.string().trim().max(500).optional(),
});

/** Sets the PIN of the person who is signed in; two empty fields take it away. */
export async function choosePin(_before: PeopleAnswer, form: FormData): Promise<PeopleAnswer> {
  const asker = await requireAction("choosePin");
  if (!asker.ok) return no(asker.message);
  const said = await words();
  const { answers } = said.people;
  const read = PinForm.safeParse(Object.fromEntries(form));
  if (!read.success) return no(answers.fillPin);
  const { pin, again, password } = read.data;
  if (pin !== again) return no(answers.pinsDiffer);
  const refused = await passwordRefused(asker.person.login, password, said);
  if (refused) return no(refused);
  const actor = { ...asker.actor, at: Date.now() };
  const saved = await setPin(await database(), {
    accountId: asker.person.id,
    pin: pin === "" ? null : pin,
    password,
    actor,
  });
  if (!saved.ok) return no(refusalIn(said, saved.refusal));
  revalidatePath("/people");
  return yes(pin === "" ? answers.noPin : answers.newPin);
}

/** Changes the password of the person who is signed in. */
export async function changePassword(_before: PeopleAnswer, form: FormData): Promise<PeopleAnswer> {
  const asker = await requireAction("changePassword");
  if (!asker.ok) return no(asker.message);
  const said = await words();
  const { answers } = said.people;
  const read = PasswordForm.safeParse(Object.fromEntries(form));
  if (!read.success) return no(answers.fillAll);
  const { password, wanted, again } = read.data;
  if (wanted !== again) return no(answers.newPasswordsDiffer);
  const refused = await passwordRefused(asker.person.login, password, said);
  if (refused) return no(refused);
  const saved = await change(await database(), {
    id: asker.person.id,
    password: wanted,
    keep: await sessionToken(),
    actor: { ...asker.actor, at: Date.now() },
  });
  if (!saved.ok) return no(refusalIn(said, saved.refusal));
  revalidatePath("/people");
  return yes(answers.newPassword);
}

/** Ends one of the sessions of the person who is signed in. */
export async function endSession(_before: PeopleAnswer, form: FormData): Promise<PeopleAnswer> {
  const asker = await requireAction("endSession");
  if (!asker.ok) return no(asker.message);
  const { answers } = (await words()).people;
  const id = form.get("session");
  const ended = await endSessionById(await database(), {
    accountId: asker.person.id,
    id: typeof id === "string" ? id : "",
    actor: { ...asker.actor, at: Date.now() },
  });
  revalidatePath("/people");
  return ended ? yes(answers.sessionEnded) : no(answers.sessionEndedBefore);
}

/** Adds a person and gives the link with which they choose a password. */
export async function addPerson(_before: PeopleAnswer, form: FormData): Promise<PeopleAnswer> {
  const asker = await requireAction("addPerson");
  if (!asker.ok) return no(asker.message);
  const said = await words();
  const { answers } = said.people;
  const read = PersonForm.safeParse(Object.fromEntries(form));
  if (!read.success) return no(answers.enterPerson);
  const { login = "", name } = read.data;
  const entry = { login, name, roles: rolesOf(form) };
  const saved = await addInvited(await database(), { entry, actor: { ...asker.actor, at: Date.now() } });
  if (!saved.ok) return no(refusalIn(said, saved.refusal));
  revalidatePath("/people");
  return linkFor(answers.link(name.trim()), saved.token);
}

/** Changes a person's name, roles or state, or gives a new link for a password. */
export async function changePerson(_before: PeopleAnswer, form: FormData): Promise<PeopleAnswer> {
  const asker = await requireAction("changePerson");
  if (!asker.ok) return no(asker.message);
  const said = await words();
  const { answers } = said.people;
  const read = PersonForm.safeParse(Object.fromEntries(form));
  const id = Number(form.get("account"));
  if (!read.success || !Number.isInteger(id)) return no(answers.incomplete);
  const { name, reason = "" } = read.data;
  const actor = { ...asker.actor, at: Date.now() };
  const wish = form.get("wish");
  const db = await database();
  if (wish === "link") {
    const invited = await invite(db, { id, actor });
    if (!invited.ok) return no(refusalIn(said, invited.refusal));
    revalidatePath("/people");
    return linkFor(answers.link(name.trim()), invited.token);
  }
  if (wish === "deactivate" && id === asker.person.id) return no(answers.ownAccount);
  const changes = { name, roles: rolesOf(form), isActive: wish !== "deactivate" };
  const saved = await changeAccount(db, { id, changes, reason, actor });
  if (!saved.ok) return no(refusalIn(said, saved.refusal));
  revalidatePath("/people");
  return yes(changes.isActive ? answers.saved : answers.deactivated);
}

async function passwordRefused(
  login: string,
  password: string,
  { people: { answers }, times }: Words,
): Promise<string | null> {
  const asked = { login, password, origin: await requestOrigin(), now: Date.now() };
  const checked = await checkPassword(await database(), asked);
  if (checked.ok) return null;
  return checked.waitMs > 0
    ? answers.wait(durationWords(checked.waitMs + 999, times))
    : answers.wrongPassword;
}

function rolesOf(form: FormData): Role[] {
  return form.getAll("role").filter((role): role is Role => typeof role === "string" && isRole(role));
}

function linkFor(message: string, token: string): PeopleAnswer {
  // Behind the #, a browser keeps it to itself: it is in no log.
  return { done: true, message, link: `/welcome#${token}` };
}

function yes(message: string): PeopleAnswer {
  return { done: true, message, link: null };
}

function no(message: string): PeopleAnswer {
  return { done: false, message, link: null };
}
