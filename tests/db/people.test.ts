import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import path from "node:path";
import { beforeEach, describe, expect, onTestFinished, test } from "vitest";
import { createSession } from "../../db/commands/accounts";
import { connectionOf, type Database } from "../../db/connection";
import { holdServerLock } from "../../db/one-server";
import {
  acceptInvitation,
  addInvited,
  changePassword,
  changePerson,
  endSessionById,
  INVITATION_MS,
  invite,
  listPeople,
  sessionsOf,
} from "../../db/people/manage";
import { checkPassword } from "../../db/people/sign-in";
import { accountOfSession } from "../../db/queries/accounts";
import { plantMetrics } from "../../db/queries/metrics";
import { recordLines } from "../../db/queries/record";
import { emptyPlant } from "./plant";

const at = Date.now();
const actor = { accountId: null, at };
const HERE = { device: "", address: "" };
let database: Database;

beforeEach(async () => {
  database = await emptyPlant();
});

async function invited(login: string, roles: ("admin" | "viewer")[] = ["viewer"]) {
  const added = await addInvited(database, { entry: { login, name: login, roles }, actor });
  if (!added.ok) throw new Error(added.message);
  return added;
}

describe("a person", () => {
  test("is added with a link that works once, and then signs in with their own password", async () => {
    const { id, token } = await invited("jr");
    expect(await listPeople(database)).toMatchObject([{ id, hasPassword: false, deactivatedAt: null }]);
    expect((await acceptInvitation(database, { token, password: "short", now: at })).ok).toBe(false);
    const accept = { token, password: "steady bore", now: at };
    expect(await acceptInvitation(database, accept)).toEqual({ ok: true, id });
    expect((await acceptInvitation(database, accept)).ok).toBe(false);
    const asked = { login: "jr", password: "steady bore", origin: HERE, now: at };
    expect((await checkPassword(database, asked)).ok).toBe(true);
  });

  test("has seven days for the link, and a newer one takes its place", async () => {
    const { id, token } = await invited("jr");
    const late = { token, password: "steady bore", now: Date.now() + INVITATION_MS + 1000 };
    expect((await acceptInvitation(database, late)).ok).toBe(false);
    const newer = await invite(database, { id, actor });
    expect((await acceptInvitation(database, { token, password: "steady bore", now: at })).ok).toBe(false);
    if (!newer.ok) throw new Error(newer.message);
    expect(
      (await acceptInvitation(database, { token: newer.token, password: "steady bore", now: at })).ok,
    ).toBe(true);
  });

  test("who changes the password, or is deactivated, is signed in nowhere else", async () => {
    const { id } = await invited("jr");
    await invited("boss", ["admin"]);
    const [here, there] = await Promise.all(
      [1, 2].map(() => createSession(database, { accountId: id, now: at })),
    );
    if (!here || !there) throw new Error("No sessions.");
    await changePassword(database, { id, password: "another bore", keep: here.token, actor });
    expect(await accountOfSession(database, { token: there.token, now: at })).toBeNull();
    expect(await accountOfSession(database, { token: here.token, now: at })).not.toBeNull();
    const changes = { name: "jr", roles: ["viewer"] as const, isActive: false };
    await changePerson(database, { id, changes, reason: "left", actor });
    expect(await accountOfSession(database, { token: here.token, now: at })).toBeNull();
  });

  test("ends their own sessions and nobody else's", async () => {
    const [jr, mk] = [await invited("jr"), await invited("mk")];
    const { token } = await createSession(database, {
      accountId: jr.id,
      device: "Firefox on Linux",
      now: at,
    });
    const [row] = await sessionsOf(database, { accountId: jr.id, token, now: at });
    expect(row).toMatchObject({ device: "Firefox on Linux", isThis: true });
    const id = row?.id as string;
    expect(await endSessionById(database, { accountId: mk.id, id, actor })).toBe(false);
    expect(await endSessionById(database, { accountId: jr.id, id, actor })).toBe(true);
    expect(await accountOfSession(database, { token, now: at })).toBeNull();
  });

  test("who is the only admin stays one", async () => {
    const { id } = await invited("boss", ["admin"]);
    const change = (roles: ("admin" | "viewer")[], isActive: boolean) =>
      changePerson(database, { id, changes: { name: "boss", roles, isActive }, reason: "", actor });
    expect(await change(["viewer"], true)).toMatchObject({
      ok: false,
      message: expect.stringContaining("only active admin"),
    });
    expect((await change(["admin"], false)).ok).toBe(false);
    await invited("second", ["admin"]);
    expect((await change(["viewer"], true)).ok).toBe(true);
  });
});

test("the record is found by word, person and time, page by page, with before and after", async () => {
  const { id } = await invited("jr");
  await invited("boss", ["admin"]);
  for (const name of ["J. Rossi", "J. Rossi-Berg"]) {
    const changes = { name, roles: ["viewer"] as const, isActive: true };
    await changePerson(database, {
      id,
      changes,
      reason: "a new name",
      actor: { accountId: id, at: at + 1000 },
    });
  }
  const found = await recordLines(database, { filter: { text: "Rossi-Berg" }, count: 10 });
  expect(found).toMatchObject([
    { action: "change account", subject: "jr", reason: "a new name", who: "J. Rossi-Berg" },
  ]);
  expect(JSON.parse(found[0]?.before ?? "")).toMatchObject({ name: "J. Rossi" });
  expect(await recordLines(database, { filter: { accountId: id }, count: 10 })).toHaveLength(2);
  expect(await recordLines(database, { filter: { from: at + 1000 }, count: 10 })).toHaveLength(2);
  const all = await recordLines(database, { filter: {}, count: 10 });
  const first = await recordLines(database, { filter: {}, count: 2 });
  const rest = await recordLines(database, { filter: {}, before: first.at(-1)?.id ?? null, count: 10 });
  expect([...first, ...rest].map((line) => line.id)).toEqual(all.map((line) => line.id));
});

test("figures for monitoring count what is there", async () => {
  const { id } = await invited("jr");
  await createSession(database, { accountId: id, now: at });
  const metrics = await plantMetrics(database, { now: at });
  expect(metrics).toMatchObject({
    sessions: 1,
    measurements: 0,
    features: 0,
    recordLines: 2,
    openAlarms: {},
  });
  expect(metrics.databaseBytes).toBeGreaterThan(4096);
  expect(connectionOf(database).sqlite.prepare("select count(*) from audit").pluck().get()).toBe(2);
});

test("a second server on the same database is refused until the first process has ended", () => {
  const place = mkdtempSync(path.join(tmpdir(), "steadyrest-lock-"));
  onTestFinished(() => rmSync(place, { recursive: true, force: true }));
  const file = path.join(place, "steadyrest.db");
  const other = `
    const Database = require("better-sqlite3");
    const lock = new Database(process.argv[1] + ".server", { timeout: 0 });
    try { lock.exec("BEGIN EXCLUSIVE"); console.log("held"); } catch (error) { console.log(error.code); }
    process.kill(process.pid, "SIGKILL");`;
  const askElsewhere = () =>
    spawnSync(process.execPath, ["-e", other, file], { encoding: "utf8" }).stdout.trim();
  // Killed while it held the lock, it leaves none behind.
  expect(askElsewhere()).toBe("held");
  expect(holdServerLock(file)).toBe(true);
  expect(askElsewhere()).toBe("SQLITE_BUSY");
});
