import { use } from "react";
import { cautions } from "../../../lib/statement/cautions";
import { words } from "../../language/language";
import styles from "./detail.module.css";

/** What an index does not say, for whoever passes it on. */
export function Cautions({ confidence }: { confidence: string }) {
  return (
    <ul className={styles.cautions}>
      {cautions(confidence, use(words()).claims).map((caution) => (
        <li key={caution}>{caution}</li>
      ))}
    </ul>
  );
}
