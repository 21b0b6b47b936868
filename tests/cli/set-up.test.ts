import { expect, test } from "vitest";
import { setUp } from "../../db/commands/accounts";
import { openDatabase } from "../../db/connection";
import { commandLine } from "./command";

const cli = commandLine();

test("prints a link while there is no account, and refuses once there is one", async () => {
  const first = await cli.run("set-up");
  expect(first.output).toMatch(/http:\/\/localhost:\d+\/set-up#[\w-]{43}\n$/);

  const { path } = await cli.json<{ path: string }>("set-up");
  const database = await openDatabase(cli.database());
  const entry = { login: "boss", name: "The boss", password: "one time only" };
  const saved = await setUp(database, { token: path.split("#")[1] ?? "", entry, at: Date.now() });
  await database.close();
  expect(saved.ok).toBe(true);

  const late = await cli.run("set-up");
  expect(late.code).toBe(1);
  expect(late.errors).toContain("the plant has accounts already");
  expect(await cli.json("set-up", "--if-needed")).toEqual({ ok: true, path: null });
});
