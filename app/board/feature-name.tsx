import type { FeatureRow } from "../../db/queries/features";
import { partName } from "../../lib/format/names";
import { Link } from "../fittings/link";
import styles from "./board.module.css";

/** A feature as people look for it: its name as the link to its chart, its part below, key marked by a word. */
export function FeatureName({ feature }: { feature: FeatureRow }) {
  return (
    <span className={styles.feature}>
      <Link href={`/features/${feature.id}`}>{feature.name}</Link>{" "}
      <span className={styles.part}>
        {partName(feature.part)} {feature.keyCharacteristic ? <span className={styles.key}>key</span> : null}
      </span>
    </span>
  );
}
