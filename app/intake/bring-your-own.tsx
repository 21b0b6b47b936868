import { FILES_TO_TRY } from "./files-to-try";
import styles from "./intake.module.css";
import { PIECE_HOLDS, TIDY_GROUPS } from "./tidy-columns";

/** Help in place: what a file of one's own should hold, and what is found out without being told. */
export function BringYourOwn({ isDemo, isOpen }: { isDemo: boolean; isOpen: boolean }) {
  return (
    <div className={styles.help}>
      {isDemo ? (
        <section aria-labelledby="to-try" className={styles.toTry}>
          <h2 id="to-try">Files to try</h2>
          <p>The demo stops on a Monday morning; Friday’s and Saturday’s files are still to be taken in.</p>
          <ul>
            {FILES_TO_TRY.map(({ name, shows }) => (
              <li key={name}>
                <a href={`/api/intake/files-to-try/${name}`} download={name}>
                  {name}
                </a>
                : {shows}
              </li>
            ))}
          </ul>
        </section>
      ) : null}
      <details open={isOpen} className={styles.own}>
        <summary>
          <h2>Bring your own file</h2>
        </summary>
        <div className={styles.ownBody}>
          <p>
            Any CSV or XLSX with a header row will do, and QIF results (ISO 23952) as they are. A file with
            these column names needs no mapping; of any other, the columns are mapped once.{" "}
            <a href="/api/intake/sample" download="measurements-sample.csv">
              Download a sample
            </a>
            .
          </p>
          <div className={styles.tidy}>
            {TIDY_GROUPS.map(({ legend, columns }) => (
              <section key={legend}>
                <h3>{legend}</h3>
                <dl>
                  {legend === "When and on what" ? (
                    <div>
                      <dt>
                        <code>piece</code>
                      </dt>
                      <dd>{PIECE_HOLDS}</dd>
                    </div>
                  ) : null}
                  {columns.map(({ column, holds }) => (
                    <div key={column}>
                      <dt>
                        <code>{column}</code>
                      </dt>
                      <dd>{holds}</dd>
                    </div>
                  ))}
                </dl>
              </section>
            ))}
          </div>
          <h3>Found out by itself</h3>
          <ul className={styles.byItself}>
            <li>separator, decimal mark, encoding, and day or month first, from the rows themselves</li>
            <li>usual headers such as “USL”, “Batch”, “Serial no”, “Messwert”, with units in brackets</li>
            <li>one piece a row, with a column for each feature</li>
            <li>new parts and features, with chart, subgroup size and kind suggested from the data</li>
            <li>
              measurements that are there already, late ones and corrections, by feature, piece and time
            </li>
          </ul>
          <p>
            Inches are converted by exactly 25.4 where the feature is in mm. What a file says of a known
            feature’s tolerance changes nothing: the control plan stands, and the difference is noted.
          </p>
        </div>
      </details>
    </div>
  );
}
