import { counted } from "../../../lib/format/numbers";
import { Note } from "../../fittings/note";
import { When } from "../../fittings/when";
import styles from "../intake.module.css";
import { folderState } from "./folder";
import { watchNow } from "./watch";

const MOST_REFUSED_SHOWN = 5;

/** The state of the watched folder: what waits in it, what was refused and why, and whether it can be read. */
export async function WatchedFolder({ zone }: { zone: string }) {
  const watch = watchNow();
  if (!watch) {
    return (
      <p className={styles.wayWords}>
        None is set. Start the program with <code>STEADYREST_WATCH=/some/folder</code>, and files that are put
        there are taken in by themselves.
      </p>
    );
  }
  const state = await folderState(watch.folder, { most: MOST_REFUSED_SHOWN }).catch(() => null);
  return (
    <>
      <p className={styles.wayWords}>
        Files put into <code>{watch.folder}</code> are taken in by themselves and then moved to{" "}
        <code>done</code> or <code>refused</code> inside it. {lookWords(watch)}{" "}
        {watch.lookedAt === null ? null : (
          <>
            Last look <When at={watch.lookedAt} zone={zone} as="ago" />.
          </>
        )}
      </p>
      {watch.fault !== null || state === null ? (
        <Note kind="broken" title="The folder cannot be used">
          {watch.fault ?? "It cannot be read."} Files stay where they are until that is repaired; it is tried
          again every two seconds.
        </Note>
      ) : null}
      {state ? (
        <p>
          {state.waiting === 0 ? "Nothing waits" : `${counted(state.waiting, "file")} waiting`}, {state.done}{" "}
          done, {state.refused} refused.
        </p>
      ) : null}
      {state && state.latestRefused.length > 0 ? (
        <Note kind="remark" title="Latest refused files">
          <ul className={styles.notices}>
            {state.latestRefused.map(({ name, why }) => (
              <li key={name}>
                {name}: {why || "the reason that lay beside it is gone."}
              </li>
            ))}
          </ul>
        </Note>
      ) : null}
    </>
  );
}

function lookWords({ isWatching }: { isWatching: boolean }): string {
  return isWatching ? "" : "Another process on this database watches it.";
}
