import { counted } from "../../lib/format/numbers";
import { Link } from "../fittings/link";
import styles from "./alarms.module.css";

/** More cards than anybody goes through, and than a tablet draws at once; the most urgent stand first. */
export const MOST_CARDS = 100;

/** Says that there are more than are shown; nothing when there are not. */
export function MoreAlarms({ count }: { count: number }) {
  if (count <= MOST_CARDS) return null;
  return (
    <p className={styles.more}>
      {counted(count - MOST_CARDS, "more alarm")} not shown. The <Link href="/">shift board</Link> narrows
      them to a line, a part or a source.
    </p>
  );
}
