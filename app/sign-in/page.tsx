import { redirect } from "next/navigation";
import { demoAccounts, hasAccounts } from "../../db/queries/accounts";
import { pieces } from "../../lib/words/fill";
import { openPage } from "../access";
import { database } from "../database";
import { Note } from "../fittings/note";
import { PageFrame } from "../fittings/page-frame";
import { SubmitButton } from "../fittings/submit-button";
import { words } from "../language/language";
import { continueInDemo } from "./actions";
import { nextAddress } from "./next-address";
import styles from "./sign-in.module.css";
import { SignInForm } from "./sign-in-form";

export async function generateMetadata() {
  return { title: (await words()).signIn.title };
}

export default async function SignInPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const person = await openPage("/sign-in");
  const { next: wanted, as: isAnother } = await searchParams;
  const next = nextAddress(wanted);
  if (person && wanted !== undefined && isAnother === undefined) redirect(next);

  const { signIn } = await words();
  const db = await database();
  const demo = await demoAccounts(db);
  const isEmpty = demo.length === 0 && !(await hasAccounts(db));
  return (
    <PageFrame title={signIn.title} purpose={person ? signIn.already(person.name) : signIn.purpose}>
      {isEmpty ? (
        <Note kind="empty" title={signIn.nobody}>
          {pieces(signIn.firstLink).map((piece) =>
            piece === "command" ? <code key={piece}>npm run cli -- set-up</code> : piece,
          )}
        </Note>
      ) : null}
      <div className={styles.ways}>
        {demo.length > 0 ? (
          <section className={styles.demo} aria-labelledby="demo">
            <h2 id="demo">{signIn.demo.title}</h2>
            <p>{signIn.demo.purpose}</p>
            <ul>
              {demo.map(({ login, name, roles }) => (
                <li key={login}>
                  <form action={continueInDemo}>
                    <input type="hidden" name="login" value={login} />
                    <input type="hidden" name="next" value={next} />
                    <SubmitButton
                      kind={roles.includes("engineer") ? "main" : "plain"}
                      working={signIn.form.working}
                    >
                      {signIn.demo.continueAs(name)}
                    </SubmitButton>
                  </form>
                  <p>{roles.map((role) => signIn.demo.promises[role]).join("; ")}</p>
                </li>
              ))}
            </ul>
          </section>
        ) : null}
        {isEmpty ? null : (
          <section className={styles.own} aria-labelledby="own">
            <h2 id="own">{signIn.own}</h2>
            <SignInForm next={next} words={signIn.form} />
          </section>
        )}
      </div>
    </PageFrame>
  );
}
