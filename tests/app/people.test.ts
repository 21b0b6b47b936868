import { join } from "node:path";
import BetterSqlite3 from "better-sqlite3";
import { expect, onTestFinished, test } from "vitest";
import { createSession } from "../../db/commands/accounts";
import { failLeftIntakes } from "../../db/commands/intakes";
import { openDatabase } from "../../db/connection";
import { demoAccounts } from "../../db/queries/accounts";
import { listIntakes } from "../../db/queries/intakes";
import { verify } from "../../db/verify";
import { browserForThisFile } from "./browser";
import { address, dataFolder } from "./plant";
import { startServer } from "./server";

const browser = browserForThisFile();

test("a link that has ended is refused in words, and its secret is in no request", async () => {
  const page = await browser.page();
  const asked: string[] = [];
  page.on("request", (request) => asked.push(request.url()));
  await page.goto("/welcome#a-secret-of-a-link");
  await page.getByLabel("Password", { exact: true }).fill("long enough a password");
  await page.getByLabel("Password once more").fill("long enough a password");
  await page.getByRole("button", { name: "Choose this password" }).click();
  await page.getByText("Nothing saved:").waitFor();
  expect(asked.filter((url) => url.includes("a-secret-of-a-link") && !url.includes("#"))).toEqual([]);
});

/** Lets the log of changes grow beyond `bytes`, and keeps it so until the answer is called. */
async function fillUp(folder: string, bytes: number): Promise<() => void> {
  const path = join(folder, "steadyrest.db");
  const [reader, writer] = [new BetterSqlite3(path), new BetterSqlite3(path)];
  // While somebody reads what was before, SQLite cannot begin its log anew.
  reader.exec("BEGIN");
  reader.prepare("select count(*) from setting").get();
  writer.pragma("wal_autocheckpoint = 0");
  const insert = writer.prepare("insert into setting (key, value) values (?, ?)");
  insert.run("filling", "x".repeat(bytes));
  return () => {
    reader.close();
    writer.prepare("delete from setting where key = 'filling'").run();
    writer.pragma("wal_checkpoint(TRUNCATE)");
    writer.close();
  };
}

test("a disk that takes nothing more, and a server that is gone, leave in the form what was typed", async () => {
  const server = await startServer({ largestFileMb: 8 });
  onTestFinished(server.stop);
  const page = await browser.page();
  const [name = "", value = ""] = (await sessionOfEngineer(server.dataFolder)).split("=");
  await page.context().addCookies([{ name, value, url: server.address }]);
  await page.goto(`${server.address}/plan/parts/new`);
  await page.getByLabel("Number").fill("HB-77");
  await page.getByLabel("Name").fill("A name that took long to type");
  const save = page.getByRole("button", { name: "Enter this part" });
  const isStillThere = async () => {
    expect(await page.getByLabel("Number").inputValue()).toBe("HB-77");
    expect(await page.getByLabel("Name").inputValue()).toBe("A name that took long to type");
  };

  const makeRoom = await fillUp(server.dataFolder, 9 * 1024 * 1024);
  await save.click();
  await page
    .getByText(/^Nothing saved: the disk did not take it\..* What you entered is still here/)
    .waitFor();
  await isStillThere();
  expect(browser.complaints()).toMatchObject([{ text: expect.stringMatching(/^500 from .*\/parts\/new$/) }]);

  makeRoom();
  await save.click();
  await page.waitForURL(/\/plan\/features\/new\?part=\d+$/);

  await page.goto(`${server.address}/plan/parts/new`);
  await page.getByLabel("Number").fill("HB-77");
  await page.getByLabel("Name").fill("A name that took long to type");
  await server.end();
  await save.click();
  await page.getByText(/^No answer from the server.* What you entered is still here/).waitFor();
  await isStillThere();
});

async function sessionOfEngineer(folder: string): Promise<string> {
  const database = await openDatabase(join(folder, "steadyrest.db"));
  try {
    const person = (await demoAccounts(database)).find(({ roles }) => roles.includes("engineer"));
    const { token } = await createSession(database, { accountId: person?.id ?? 0, now: Date.now() });
    return `steadyrest-session=${token}`;
  } finally {
    await database.close();
  }
}

test("a host that a request claims to be forwarded from does not make another site one of ours", async () => {
  const cookie = await sessionOfEngineer(dataFolder);
  const claims = {
    cookie,
    origin: "https://elsewhere.example",
    "x-forwarded-host": "elsewhere.example",
    "x-forwarded-proto": "https",
  };
  for (const path of ["/api/intake/upload?name=a.csv", "/sign-in"]) {
    const answer = await fetch(`${address}${path}`, { method: "POST", headers: claims, body: "a" });
    expect(answer.status, path).toBe(403);
    expect(await answer.text()).toContain("the request came from another site");
  }
});

test("a server told to stop says of the files that waited that they were not begun, and its database is whole", async () => {
  const server = await startServer();
  onTestFinished(server.stop);
  const headers = { cookie: await sessionOfEngineer(server.dataFolder), origin: server.address };
  const uploaded = async (name: string, rows: number) => {
    const lines = Array.from({ length: rows }, (_, i) => {
      const at = new Date(Date.UTC(2026, 0, 1) + i * 1000).toISOString();
      return `P-STOP,f${i % 40},${at},${(10 + (i % 7) / 100).toFixed(2)}`;
    });
    const body = `part,feature,taken_at,value\n${lines.join("\n")}\n`;
    const sent = await fetch(`${server.address}/api/intake/upload?name=${name}`, {
      method: "POST",
      headers,
      body,
    });
    expect(sent.status).toBe(201);
    return (await sent.json()) as { file: { id: string }; look: { mapping: object } };
  };
  const files = [await uploaded("long.csv", 150_000), await uploaded("next.csv", 20)];
  for (const { file, look } of files) {
    const begun = await fetch(`${server.address}/api/intake/upload/${file.id}/commit`, {
      method: "POST",
      headers: { ...headers, "content-type": "application/json" },
      body: JSON.stringify({ mapping: look.mapping, subgroupSize: null, saveAs: "" }),
    });
    expect(begun.status, await begun.clone().text()).toBe(202);
  }
  await server.end();

  const database = await openDatabase(join(server.dataFolder, "steadyrest.db"));
  onTestFinished(() => database.close());
  // What the next start does first.
  await failLeftIntakes(database, { at: Date.now() });
  const intakes = await listIntakes(database, { limit: 5 });
  expect(intakes.find(({ file }) => file === "next.csv")).toMatchObject({
    state: "failed",
    message:
      "The program was stopped before this file was begun; nothing of it was stored. Bring the file in again.",
  });
  const long = intakes.find(({ file }) => file === "long.csv");
  expect(long).toMatchObject({ state: "failed", accepted: 0 });
  expect(long?.message).toContain("nothing of it was stored");
  expect(await verify(database)).toMatchObject({ ok: true });
});
