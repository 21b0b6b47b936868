import { redirect } from "next/navigation";
import { demoAccounts, hasAccounts } from "../../db/queries/accounts";
import type { Role } from "../../lib/people/roles";
import { openPage } from "../access";
import { database } from "../database";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { SubmitButton } from "../fittings/submit-button";
import { continueInDemo } from "./actions";
import { nextAddress } from "./next-address";
import styles from "./sign-in.module.css";
import { SignInForm } from "./sign-in-form";

export const metadata = { title: "Sign in" };

/** What each role of the demo is good for, said to somebody who sees it for the first time. */
const ROLE_PROMISES: Record<Role, string> = {
  viewer: "sees everything, changes nothing",
  "shift-lead": "answers alarms, logs what was done to sources",
  engineer: "takes files in, sets limits, rules and tolerances",
  quality: "prepares capability statements for customers",
  admin: "adds people, keeps backups",
};

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const person = await openPage("/sign-in");
  const { next: wanted, as: isAnother } = await searchParams;
  const next = nextAddress(wanted);
  if (person && wanted !== undefined && isAnother === undefined) redirect(next);

  const db = await database();
  const demo = await demoAccounts(db);
  const isEmpty = demo.length === 0 && !(await hasAccounts(db));
  return (
    <PageFrame
      title="Sign in"
      purpose={
        person
          ? `You are signed in as ${person.name}. Signing in again changes who you are on this device.`
          : "So that every change carries the name of the person who made it."
      }
    >
      {isEmpty ? (
        <Note kind="empty" title="Nobody has an account yet">
          The first one is made with a one-time link. The command <code>npm run cli -- set-up</code> prints it
          in the terminal of the machine on which the program runs.
        </Note>
      ) : null}
      <div className={styles.ways}>
        {demo.length > 0 ? (
          <section className={styles.demo} aria-labelledby="demo">
            <h2 id="demo">Look around in the demo</h2>
            <p>A fictional plant with thirteen weeks of measurements. One press signs you in.</p>
            <ul>
              {demo.map(({ login, name, roles }) => (
                <li key={login}>
                  <form action={continueInDemo}>
                    <input type="hidden" name="login" value={login} />
                    <input type="hidden" name="next" value={next} />
                    <SubmitButton kind={roles.includes("engineer") ? "main" : "plain"} working="Signing in …">
                      Continue as {name}
                    </SubmitButton>
                  </form>
                  <p>{roles.map((role) => ROLE_PROMISES[role]).join("; ")}</p>
                </li>
              ))}
            </ul>
          </section>
        ) : null}
        {isEmpty ? null : (
          <section className={styles.own} aria-labelledby="own">
            <h2 id="own">With your own account</h2>
            <SignInForm next={next} />
          </section>
        )}
      </div>
    </PageFrame>
  );
}
