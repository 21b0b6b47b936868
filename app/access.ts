import "server-only";
import { headers } from "next/headers";
import { forbidden, redirect } from "next/navigation";
import type { Actor } from "../db/commands/audit";
import { type ApiKey, apiKeyOf, isKeyInForce } from "../db/people/api-keys";
import type { Account } from "../db/queries/accounts";
import { type Role, rolesInWords } from "../lib/people/roles";
import type { Scope } from "../lib/people/scopes";
import { ENGLISH } from "../lib/words/words";
import { ACCESS, type ActionName, type Allowed, type Endpoint, type PageAddress } from "./access-table";
import { database } from "./database";
import { words } from "./language/language";
import { plant } from "./plant";
import { laterSignedIn, signedIn } from "./session";
import type { MachineRequest } from "./straight";
import { wallSecret } from "./wall/wall-cookie";

/** Who asks, and how the record names them. */
export type Asker = { person: Account; actor: Actor };

/**
 * The person who may see this page. Call it first in every page.
 *
 * Nobody signed in: on to the sign-in page and back afterwards. Signed in without the role: the page that
 * says which role it takes, with status 403.
 */
export async function requirePage(address: PageAddress): Promise<Account> {
  const person = await signedIn();
  if (!person) redirect(`/sign-in?next=${encodeURIComponent(await addressAsked())}`);
  if (!isAllowed(person, ACCESS.pages[address])) forbidden();
  await plant(); // So that no figure of the page is written before the plant's marks are known.
  return person;
}

/** For a page that needs no sign-in: whoever is signed in, or null. */
export async function openPage(address: PageAddress): Promise<Account | null> {
  requireOpen(ACCESS.pages[address], address);
  return signedIn();
}

/**
 * Whether this person may run a server action. Call it first in every action and hand back its `message`.
 *
 * Next has compared the request's origin with the host before an action runs.
 */
export async function requireAction(
  name: ActionName,
): Promise<({ ok: true } & Asker) | { ok: false; done: false; message: string }> {
  const person = await signedIn();
  if (!person) return refusal((await words()).access.signInEnded);
  const allowed: Allowed = ACCESS.actions[name];
  if (!isAllowed(person, allowed)) return refusal(await needsRole(person, allowed, "notSaved"));
  return { ok: true, ...(await askerOf(person)) };
}

/** For an action that needs no sign-in. */
export function openAction(name: ActionName): void {
  requireOpen(ACCESS.actions[name], name);
}

/** For an endpoint that needs no sign-in; a reading one only, since nobody vouches for where the request is from. */
export function openEndpoint(request: Request, endpoint: Endpoint): void {
  requireOpen(ACCESS.endpoints[endpoint], endpoint);
  if (!isReading(request.method)) throw new Error(`${endpoint} changes something and must know who asks.`);
}

/**
 * Whether this request may reach a route handler: the asker, or the answer that refuses it. Call it first:
 *
 *   const asker = await requireEndpoint(request, "POST /api/intake");
 *   if (asker instanceof Response) return asker;
 *
 * A request that changes something must come from a page of this host.
 */
export async function requireEndpoint(request: Request, endpoint: Endpoint): Promise<Asker | Response> {
  if (!isReading(request.method) && !(await isFromHere(request))) {
    return answer(403, (await words()).access.otherSite);
  }
  const person = await signedIn();
  if (!person) return answer(401, (await words()).access.signInFirst);
  const allowed: Allowed = ACCESS.endpoints[endpoint];
  if (!isAllowed(person, allowed)) return answer(403, await needsRole(person, allowed, "notRead"));
  return askerOf(person);
}

/**
 * Whether a machine's request may reach a route handler: its key, or the answer that refuses it. Call it first,
 * as `requireEndpoint`, in a handler that the table opens to keys.
 *
 * The key comes in the Authorization header, which no other site can make a browser send. Programs are answered in
 * English.
 */
export async function requireKey(
  request: Pick<MachineRequest, "method" | "headers">,
  endpoint: Endpoint,
): Promise<ApiKey | Response> {
  const scope = scopeOf(ACCESS.endpoints[endpoint]);
  if (scope === null) throw new Error(`${endpoint} is not open to keys.`);
  const sent = /^Bearer +(\S+)$/i.exec(request.headers.get("authorization") ?? "")?.[1];
  // A browser on a wall cannot send headers of its own with a stream; reading is all that its cookie opens.
  const secret =
    sent ?? (scope === "show-wall" && isReading(request.method) ? await wallSecret() : undefined);
  if (!secret) {
    return unknownKey(
      'send a key in the header "Authorization: Bearer …". An admin makes one on the page Keys.',
    );
  }
  const found = await apiKeyOf(await database(), { secret, now: Date.now() });
  if (!found.ok) {
    if (found.why === "unknown")
      return unknownKey("the key is not known here. Compare it with the one that was shown.");
    const when = new Date(found.at).toISOString();
    const ended = found.why === "expired" ? "ran out" : "was ended";
    return unknownKey(
      `the key "${found.name}" ${ended} at ${when}. An admin makes another on the page Keys.`,
    );
  }
  const { key } = found;
  if (!key.scopes.includes(scope)) {
    const { scopes } = ENGLISH.people.keys;
    const may = key.scopes.map((each) => scopes[each]).join(", ");
    return answer(
      403,
      `Nothing was read or saved: the key "${key.name}" may ${may}, and this takes one that may ${scopes[scope]}.`,
    );
  }
  return key;
}

/** The key with which this screen may show the wall board; null when it has none that is good. */
export async function wallKey(): Promise<ApiKey | null> {
  const secret = await wallSecret();
  if (!secret) return null;
  const found = await apiKeyOf(await database(), { secret, now: Date.now() });
  return found.ok && found.key.scopes.includes("show-wall") ? found.key : null;
}

function unknownKey(why: string): Response {
  const message = `Nothing was read or saved: ${why}`;
  return Response.json({ message }, { status: 401, headers: { "www-authenticate": "Bearer" } });
}

/** The same for an answer to a key: asked now and then, whether it still stands. */
export function keyStands({ id }: ApiKey): () => Promise<boolean> {
  return async () => isKeyInForce(await database(), { id, now: Date.now() });
}

/** For an answer that goes on after the guard has let it begin: asked now and then, whether it still may. */
export async function stillMay(endpoint: Endpoint): Promise<() => Promise<boolean>> {
  const later = await laterSignedIn();
  return async () => {
    const person = await later();
    return person !== null && isAllowed(person, ACCESS.endpoints[endpoint]);
  };
}

/** Whether a page should offer what an action does. The action checks for itself. */
export function mayRun(person: Account, name: ActionName): boolean {
  return isAllowed(person, ACCESS.actions[name]);
}

/** The same for what an endpoint does. */
export function mayCall(person: Account, endpoint: Endpoint): boolean {
  return isAllowed(person, ACCESS.endpoints[endpoint]);
}

/** For a page that shows some part of itself only to people who may open another. */
export function mayOpen(person: Account, address: PageAddress): boolean {
  return isAllowed(person, ACCESS.pages[address]);
}

function isAllowed(person: Account, allowed: Allowed): boolean {
  return allowed === "anyone" || rolesOf(allowed).some((role) => person.roles.includes(role));
}

function scopeOf(allowed: Allowed): Scope | null {
  return allowed !== "anyone" && "key" in allowed ? allowed.key : null;
}

/** The roles that open something; none where a key does. */
function rolesOf(allowed: Allowed): readonly Role[] {
  return allowed === "anyone" || "key" in allowed ? [] : allowed;
}

function requireOpen(allowed: Allowed, name: string): void {
  if (allowed !== "anyone")
    throw new Error(`${name} is not open to anyone, so its guard must ask who it is.`);
}

async function askerOf(person: Account): Promise<Asker> {
  return { person, actor: { accountId: person.id, at: (await plant()).now } };
}

async function needsRole(
  { name, roles }: Account,
  allowed: Allowed,
  what: "notSaved" | "notRead",
): Promise<string> {
  const { access, trade } = await words();
  const has = roles.map((role) => trade.roles[role]).join(", ");
  return access[what](rolesInWords(rolesOf(allowed), trade), name, has || access.noRole);
}

function refusal(message: string): { ok: false; done: false; message: string } {
  return { ok: false, done: false, message };
}

function answer(status: number, message: string): Response {
  return Response.json({ message }, { status });
}

function isReading(method: string): boolean {
  return method === "GET" || method === "HEAD";
}

/** Browsers name the page's origin with every request that changes something. For what is forwarded see forwarded.ts. */
async function isFromHere(request: Request): Promise<boolean> {
  const origin = request.headers.get("origin");
  if (!origin) return false;
  const host = request.headers.get("x-forwarded-host") ?? request.headers.get("host");
  try {
    return new URL(origin).host === host;
  } catch {
    return false;
  }
}

/** The address that was asked for, as proxy.ts noted it. */
async function addressAsked(): Promise<string> {
  return (await headers()).get("x-steadyrest-address") ?? "/";
}
