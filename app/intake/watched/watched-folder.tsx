import { Filled } from "../../fittings/filled";
import { Note } from "../../fittings/note";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import styles from "../intake.module.css";
import { folderState } from "./folder";
import { watchNow } from "./watch";

const MOST_REFUSED_SHOWN = 5;

/** Where files go; names of folders are not translated. */
const FOLDERS = { done: "done", refused: "refused" };

/** The state of the watched folder: what waits in it, what was refused and why, and whether it can be read. */
export async function WatchedFolder({ zone }: { zone: string }) {
  const watch = watchNow();
  const { intake, storedTexts } = await words();
  const { folder: said } = intake;
  if (!watch) {
    return (
      <p className={styles.wayWords}>
        <Filled text={said.none} holes={{ setting: <code>STEADYREST_WATCH=/some/folder</code> }} />
      </p>
    );
  }
  const state = await folderState(watch.folder, { most: MOST_REFUSED_SHOWN }).catch(() => null);
  return (
    <>
      <p className={styles.wayWords}>
        <Filled
          text={said.words}
          holes={{
            folder: <code>{watch.folder}</code>,
            done: <code>{FOLDERS.done}</code>,
            refused: <code>{FOLDERS.refused}</code>,
          }}
        />{" "}
        {watch.isWatching ? "" : said.another}{" "}
        {watch.lookedAt === null ? null : (
          <Filled text={said.lastLook} holes={{ when: <When at={watch.lookedAt} zone={zone} as="ago" /> }} />
        )}
      </p>
      {watch.fault !== null || state === null ? (
        <Note kind="broken" title={said.broken}>
          {watch.fault ?? said.notRead} {said.stay}
        </Note>
      ) : null}
      {state ? <p>{said.counts(state.waiting, state.done, state.refused)}</p> : null}
      {state && state.latestRefused.length > 0 ? (
        <Note kind="remark" title={said.latestRefused}>
          <ul className={styles.notices}>
            {state.latestRefused.map(({ name, why }) => (
              <li key={name}>
                {name}: {storedTexts.say(why) || said.noReason}
              </li>
            ))}
          </ul>
        </Note>
      ) : null}
    </>
  );
}
