import { use } from "react";
import type { FeatureRow } from "../../db/queries/features";
import { partName } from "../../lib/format/names";
import { Link } from "../fittings/link";
import { words } from "../language/language";
import styles from "./board.module.css";

/** A feature as people look for it: its name as the link to its chart, its part below, key marked by a word. */
export function FeatureName({ feature }: { feature: FeatureRow }) {
  const { board } = use(words());
  return (
    <span className={styles.feature}>
      <Link href={`/features/${feature.id}`}>{feature.name}</Link>{" "}
      <span className={styles.part}>
        {partName(feature.part)}{" "}
        {feature.keyCharacteristic ? <span className={styles.key}>{board.key}</span> : null}
      </span>
    </span>
  );
}
