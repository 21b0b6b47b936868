import { expect, test } from "vitest";
import { SignInAttempts } from "../../app/sign-in/attempts";

const MINUTE = 60_000;

function wrongTries(attempts: SignInAttempts, count: number, who: { login: string; address: string }): void {
  for (let i = 0; i < count; i++) attempts.noteWrong({ ...who, now: 0 });
}

const HERE = { login: "jr", address: "10.0.0.5" };

test("four wrong passwords cost nothing, the fifth half a minute, further ones twice as much each", () => {
  const attempts = new SignInAttempts();
  wrongTries(attempts, 4, HERE);
  expect(attempts.waitFor({ ...HERE, now: 0 })).toBe(0);
  wrongTries(attempts, 1, HERE);
  expect(attempts.waitFor({ ...HERE, now: 0 })).toBe(MINUTE / 2);
  expect(attempts.waitFor({ ...HERE, now: MINUTE / 2 })).toBe(0);
  wrongTries(attempts, 2, HERE);
  expect(attempts.waitFor({ ...HERE, now: 0 })).toBe(2 * MINUTE);
});

test("the wait stops growing at a quarter of an hour", () => {
  const attempts = new SignInAttempts();
  wrongTries(attempts, 60, HERE);
  expect(attempts.waitFor({ ...HERE, now: 0 })).toBe(15 * MINUTE);
});

test("the same login from elsewhere and another login from here are not held up", () => {
  const attempts = new SignInAttempts();
  wrongTries(attempts, 10, HERE);
  expect(attempts.waitFor({ ...HERE, address: "10.0.0.6", now: 0 })).toBe(0);
  expect(attempts.waitFor({ ...HERE, login: "mk", now: 0 })).toBe(0);
  expect(attempts.waitFor({ ...HERE, login: " JR ", now: 0 })).toBeGreaterThan(0);
});

test("the right password begins anew", () => {
  const attempts = new SignInAttempts();
  wrongTries(attempts, 10, HERE);
  attempts.noteRight(HERE);
  expect(attempts.waitFor({ ...HERE, now: 0 })).toBe(0);
});

test("invented logins push out the oldest entry, not the latest", () => {
  const attempts = new SignInAttempts();
  wrongTries(attempts, 10, HERE);
  for (let i = 0; i < 5_000; i++) attempts.noteWrong({ login: `x${i}`, address: "10.0.0.9", now: 0 });
  expect(attempts.waitFor({ ...HERE, now: 0 })).toBe(0);
  wrongTries(attempts, 10, HERE);
  expect(attempts.waitFor({ ...HERE, now: 0 })).toBeGreaterThan(0);
});
