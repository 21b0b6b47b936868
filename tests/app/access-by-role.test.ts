import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, test } from "vitest";
import { ACCESS } from "../../app/access-table";
import { createSession } from "../../db/commands/accounts";
import { openDatabase } from "../../db/connection";
import { createApiKey } from "../../db/people/api-keys";
import { demoAccounts } from "../../db/queries/accounts";
import { ROLES, type Role } from "../../lib/people/roles";
import { SCOPES, type Scope } from "../../lib/people/scopes";
import { address, dataFolder } from "./plant";

/*
 * Every page, endpoint and action of the access table, asked by every role and by nobody, over HTTP. A house
 * check holds that the table lists exactly what there is; what it lists and is not answered as listed fails here.
 *
 * Status codes: RFC 9110, sections 15.4.8 (307), 15.5.2 (401), 15.5.4 (403) and 15.5.5 (404).
 */

type Allowed = "anyone" | readonly Role[] | { key: Scope };
type Who = Role | "nobody";

const EVERYBODY: Who[] = ["nobody", ...ROLES];
/** Ids that no table reaches, and a file's name that is none. */
const UNKNOWN: Record<string, string> = { id: "987654", name: "no-such.csv", token: "no-such-token" };

const sessions = new Map<Who, string>();
const keys = new Map<Scope, string>();

beforeAll(async () => {
  const database = await openDatabase(join(dataFolder, "steadyrest.db"));
  try {
    for (const account of await demoAccounts(database)) {
      const { token } = await createSession(database, { accountId: account.id, now: Date.now() });
      for (const role of account.roles) sessions.set(role, `steadyrest-session=${token}`);
    }
    for (const scope of SCOPES) {
      const entry = { name: scope, scopes: [scope], expiresAt: null };
      const made = await createApiKey(database, { entry, actor: { accountId: null, at: Date.now() } });
      if (made.ok) keys.set(scope, made.secret);
    }
  } finally {
    await database.close();
  }
  expect([...sessions.keys()].sort()).toEqual([...ROLES].sort());
});

type Sent = {
  method?: string;
  who?: Who;
  key?: string;
  origin?: string | null;
  body?: BodyInit;
  headers?: Record<string, string>;
};

/** One request; of an answer that never ends only the head is read. */
async function ask(
  path: string,
  { method = "GET", who = "nobody", key, origin = address, body, headers = {} }: Sent,
) {
  const leaving = new AbortController();
  const cookie = sessions.get(who);
  const answer = await fetch(`${address}${path}`, {
    method,
    redirect: "manual",
    signal: leaving.signal,
    headers: {
      ...(cookie ? { cookie } : {}),
      ...(key ? { authorization: `Bearer ${key}` } : {}),
      ...(origin === null ? {} : { origin }),
      ...headers,
    },
    ...(body === undefined ? {} : { body }),
  });
  const isEndless = answer.headers.get("content-type")?.startsWith("text/event-stream") ?? false;
  const text = isEndless ? "" : await answer.text();
  leaving.abort();
  return { status: answer.status, to: answer.headers.get("location") ?? "", text, headers: answer.headers };
}

/** What every answer carries; see next.config.mjs. */
function expectGuarded(sent: Headers, said: string): void {
  expect(sent.get("x-content-type-options"), said).toBe("nosniff");
  expect(sent.get("x-frame-options"), said).toBe("DENY");
  expect(sent.get("referrer-policy"), said).toBe("same-origin");
  expect(sent.get("permissions-policy"), said).toContain("camera=()");
  expect(sent.get("x-powered-by"), said).toBeNull();
}

function isOpenTo(allowed: Allowed, who: Who): boolean {
  if (allowed === "anyone") return true;
  return "key" in allowed ? false : who !== "nobody" && allowed.includes(who);
}

function filled(path: string, values: Record<string, string>): string {
  return path.replace(/\[(\w+)\]/g, (_, name: string) => values[name] ?? "1");
}

describe("pages", () => {
  test.each(Object.entries(ACCESS.pages) as [string, Allowed][])("%s", async (page, allowed) => {
    for (const who of EVERYBODY) {
      const { status, to, text, headers: sent } = await ask(filled(page, {}), { who });
      const said = `${page} for ${who}: ${status}`;
      expectGuarded(sent, said);
      // Redirects carry no scripts of their own, and every other answer only those with the number of this answer.
      const policy = sent.get("content-security-policy") ?? "";
      const number = /script-src 'self' 'nonce-([A-Za-z0-9+/=]{20,})'(;|$)/.exec(policy)?.[1];
      expect(number, said).toBeDefined();
      expect(policy, said).toContain("frame-ancestors 'none'");
      for (const [script] of text.matchAll(/<script\b[^>]*>/g))
        expect(script, said).toMatch(new RegExp(`nonce="${number?.replace(/[+/]/g, "\\$&")}"|src="/_next/`));
      if (isOpenTo(allowed, who)) expect([200, 307, 308, 404], said).toContain(status);
      else if (who === "nobody") {
        expect(status, said).toBe(307);
        expect(to, said).toMatch(/^(https?:\/\/[^/]+)?\/sign-in\?next=/);
      } else {
        expect(status, said).toBe(403);
        expect(text, said).toContain("This page is not for your role");
      }
    }
  });

  const withIds = Object.entries(ACCESS.pages).filter(([page]) => page.includes("[id]")) as [
    string,
    Allowed,
  ][];
  test.each(withIds)("%s of something that is not there is 404", async (page, allowed) => {
    const who = EVERYBODY.find((each) => isOpenTo(allowed, each)) ?? "admin";
    for (const id of [UNKNOWN.id as string, "0", "-1", "one", "1e3"])
      expect((await ask(filled(page, { id }), { who })).status, `${page} of ${id}`).toBe(404);
  });
});

describe("endpoints", () => {
  test.each(Object.entries(ACCESS.endpoints) as [string, Allowed][])("%s", async (endpoint, allowed) => {
    const [method = "", path = ""] = endpoint.split(" ");
    const body =
      method === "GET" || method === "DELETE"
        ? {}
        : { body: "{}", headers: { "content-type": "application/json" } };
    for (const who of EVERYBODY) {
      const { status, text, headers: sent } = await ask(filled(path, UNKNOWN), { method, who, ...body });
      const said = `${endpoint} for ${who}: ${status}`;
      expectGuarded(sent, said);
      expect(status, said).toBeLessThan(500);
      if (isOpenTo(allowed, who)) expect([401, 403], said).not.toContain(status);
      else {
        expect(status, said).toBe(
          who === "nobody" || (typeof allowed === "object" && "key" in allowed) ? 401 : 403,
        );
        expect(JSON.parse(text).message, said).toMatch(/^Nothing /);
      }
      if (isOpenTo(allowed, who) && path.includes("[id]")) expect(status, said).toBeGreaterThanOrEqual(400);
      if (isOpenTo(allowed, who) && path.includes("[id]") && method === "GET")
        // 400 where the question lacks something else besides.
        expect([400, 404], said).toContain(status);
    }
    for (const [scope, key] of keys) {
      const { status } = await ask(filled(path, UNKNOWN), { method, key, origin: null, ...body });
      const said = `${endpoint} with a key to ${scope}: ${status}`;
      if (typeof allowed === "object" && "key" in allowed) {
        if (allowed.key === scope) expect([401, 403], said).not.toContain(status);
        else expect(status, said).toBe(403);
      } else if (allowed !== "anyone") expect([401, 403], said).toContain(status);
    }
    const invented = await ask(filled(path, UNKNOWN), { method, key: "srk_invented", ...body });
    if (allowed !== "anyone") expect(invented.status).toBe(401);
  });

  const changing = Object.entries(ACCESS.endpoints).filter(
    ([endpoint, allowed]) => !endpoint.startsWith("GET ") && Array.isArray(allowed),
  ) as [string, readonly Role[]][];
  test.each(changing)("%s from a page of another site, or of none, is refused", async (endpoint, allowed) => {
    const [method = "", path = ""] = endpoint.split(" ");
    for (const origin of ["https://elsewhere.example", "null", null]) {
      const { status } = await ask(filled(path, UNKNOWN), { method, who: allowed[0] as Role, origin });
      expect(status, String(origin)).toBe(403);
    }
  });
});

describe("actions", () => {
  type Manifest = { node: Record<string, { exportedName?: string; workers: Record<string, unknown> }> };
  const manifest = JSON.parse(
    readFileSync(join(import.meta.dirname, "../../.next/server/server-reference-manifest.json"), "utf8"),
  ) as Manifest;
  const built = Object.entries(manifest.node).map(([id, { exportedName, workers }]) => ({
    id,
    name: exportedName ?? "",
    // "app/plan/page" is where the action is known.
    page:
      Object.keys(workers)[0]
        ?.replace(/^app/, "")
        .replace(/\/page$/, "") ?? "",
  }));

  /** Calls an action as the browser does: the state before, and an empty form. */
  function call(id: string, page: string, sent: Sent) {
    const body = new FormData();
    body.append("0", '[{"done":false,"message":"","attempt":0,"fields":{}},"$K1"]');
    return ask(filled(page, {}) || "/", {
      method: "POST",
      body,
      headers: { "next-action": id, accept: "text/x-component" },
      ...sent,
    });
  }

  test("the build holds exactly those of the table", () => {
    expect(built.map(({ name }) => name).sort()).toEqual(Object.keys(ACCESS.actions).sort());
  });

  test.each(Object.entries(ACCESS.actions) as [string, Allowed][])("%s", async (name, allowed) => {
    const action = built.find((each) => each.name === name);
    if (!action) throw new Error(`The build has no action ${name}.`);
    for (const who of EVERYBODY) {
      // To be let in is the business of each action's own tests; here nothing is to be changed.
      if (isOpenTo(allowed, who)) continue;
      const { text } = await call(action.id, "/sign-in", { who });
      expect(text, `${name} for ${who}`).toContain(
        who === "nobody" ? "your sign-in has ended" : "this takes the role",
      );
    }
    const foreign = await call(action.id, "/sign-in", { who: "admin", origin: "https://elsewhere.example" });
    expect(foreign.status, `${name} from elsewhere`).toBe(403);
  });
});

test("what is not listed is not there", async () => {
  for (const who of EVERYBODY)
    for (const path of ["/api", "/api/nothing", "/admin", "/people/1", "/.env", "/data/steadyrest.db"])
      expect((await ask(path, { who })).status, `${path} for ${who}`).toBe(404);
});
