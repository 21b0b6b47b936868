import { cautions } from "../../../lib/statement/cautions";
import styles from "./detail.module.css";

/** What an index does not say, for whoever passes it on. */
export function Cautions({ confidence }: { confidence: string }) {
  return (
    <ul className={styles.cautions}>
      {cautions(confidence).map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  );
}
