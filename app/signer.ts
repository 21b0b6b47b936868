import "server-only";
import type { Actor } from "../db/commands/audit";
import { checkPin } from "../db/people/pins";
import { type Account, accountsWithPin } from "../db/queries/accounts";
import { rolesInWords } from "../lib/people/roles";
import { refusalIn } from "../lib/words/refusal";
import type { Asker } from "./access";
import { SIGNERS } from "./access-table";
import { database } from "./database";

import type { Signers } from "./fittings/signer";
import { words } from "./language/language";
import { requestOrigin } from "./people/origin";

/*
 * Whose name an act bears. A shop floor has shared tablets: the one who is signed in may do what their roles
 * allow, and another person puts their own name to a single act with their PIN.
 */

/** What a page needs to offer: who may act without a PIN, and who with one. */
export async function signersFor(person: Account): Promise<Signers> {
  const others = (await accountsWithPin(await database())).filter(
    (each) => each.id !== person.id && maySign(each),
  );
  return {
    own: maySign(person) ? person.name : null,
    others: others.map(({ login, name }) => ({ login, name })),
  };
}

/** The person who puts their name to this form: the one signed in, or the one whose name and PIN it carries. */
export async function whoSigns(
  { person, actor }: Asker,
  form: FormData,
): Promise<{ ok: true; actor: Actor } | { ok: false; message: string }> {
  const said = await words();
  const login = textOf(form, "signer");
  if (login === "") {
    if (maySign(person)) return { ok: true, actor };
    return { ok: false, message: said.access.signWithPin(rolesInWords(SIGNERS, said.trade)) };
  }
  const now = Date.now();
  const pin = textOf(form, "pin");
  const checked = await checkPin(await database(), { login, pin, origin: await requestOrigin(), now });
  if (!checked.ok) return { ok: false, message: refusalIn(said, checked.refusal) };
  if (maySign(checked.person)) return { ok: true, actor: { ...actor, accountId: checked.person.id } };
  const roles = rolesInWords(SIGNERS, said.trade);
  return { ok: false, message: said.access.cannotSign(roles, checked.person.name) };
}

function maySign({ roles }: Account): boolean {
  return roles.some((role) => SIGNERS.includes(role));
}

function textOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === "string" ? value.slice(0, LONGEST_FIELD) : "";
}

const LONGEST_FIELD = 200;
