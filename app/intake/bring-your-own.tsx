import { use } from "react";
import { Filled } from "../fittings/filled";
import { words } from "../language/language";
import { FILES_TO_TRY } from "./files-to-try";
import styles from "./intake.module.css";
import { TIDY_GROUPS } from "./tidy-columns";

/** Help in place: what a file of one's own should hold, and what is found out without being told. */
export function BringYourOwn({ isDemo, isOpen }: { isDemo: boolean; isOpen: boolean }) {
  const { intake, desk } = use(words());
  const { help: said } = intake;
  const { tidy } = desk;
  return (
    <div className={styles.help}>
      {isDemo ? (
        <section aria-labelledby="to-try" className={styles.toTry}>
          <h2 id="to-try">{said.toTry}</h2>
          <p>{said.toTryWords}</p>
          <ul>
            {FILES_TO_TRY.map((name) => (
              <li key={name}>
                <a href={`/api/intake/files-to-try/${name}`} download={name}>
                  {name}
                </a>
                : {said.shows[name]}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      <details open={isOpen} className={styles.own}>
        <summary>
          <h2>{said.own}</h2>
        </summary>
        <div className={styles.ownBody}>
          <p>
            <Filled
              text={said.ownWords}
              holes={{
                sample: (
                  <a href="/api/intake/sample" download="measurements-sample.csv">
                    {said.sample}
                  </a>
                ),
              }}
            />
          </p>
          <div className={styles.tidy}>
            {TIDY_GROUPS.map(({ group, columns }) => (
              <section key={group}>
                <h3>{tidy.legends[group]}</h3>
                <dl>
                  {group === "when" ? (
                    <div>
                      <dt>
                        <code>piece</code>
                      </dt>
                      <dd>{tidy.piece}</dd>
                    </div>
                  ) : null}
                  {columns.map((column) => (
                    <div key={column}>
                      <dt>
                        <code>{column}</code>
                      </dt>
                      <dd>{tidy.columns[column].holds}</dd>
                    </div>
                  ))}
                </dl>
              </section>
            ))}
          </div>
          <h3>{said.byItself}</h3>
          <ul className={styles.byItself}>
            {said.found.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <p>{said.units}</p>
        </div>
      </details>
    </div>
  );
}
