import { use } from "react";
import type { IndexName } from "../../lib/capability/indices";
import type { CapabilityStudy } from "../../lib/capability/study";
import { AtLeast, Num } from "../fittings/num";
import { words } from "../language/language";
import styles from "./capability.module.css";

/** Indices of one spread, one a line: an index never stands without its name and its lower bound. */
export function IndexLines({ study, names }: { study: CapabilityStudy; names: readonly IndexName[] }) {
  const { table: said } = use(words()).capability;
  return (
    <span className={styles.indexLines}>
      {names
        .filter((name) => study[name] !== null)
        .map((name) => (
          <span key={name} className={styles.indexLine}>
            <span className={styles.indexName}>{name}</span> <Num value={study[name]} places={2} />{" "}
            <span className={styles.bound}>
              {said.atLeast} <AtLeast value={study.lowerBounds[name]} />
            </span>
          </span>
        ))}
    </span>
  );
}
