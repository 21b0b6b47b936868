import { use } from "react";
import { Filled } from "../fittings/filled";
import { Link } from "../fittings/link";
import { words } from "../language/language";
import styles from "./alarms.module.css";

/** More cards than anybody goes through, and than a tablet draws at once; the most urgent stand first. */
export const MOST_CARDS = 100;

/** Says that there are more than are shown; nothing when there are not. */
export function MoreAlarms({ count }: { count: number }) {
  if (count <= MOST_CARDS) return null;
  const { alarms } = use(words());
  return (
    <p className={styles.more}>
      <Filled
        text={alarms.more(count - MOST_CARDS)}
        holes={{ board: <Link href="/">{alarms.board}</Link> }}
      />
    </p>
  );
}
