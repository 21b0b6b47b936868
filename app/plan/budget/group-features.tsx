import { use } from "react";
import type { PlanGroup } from "../../../lib/alarm-budget/plan-groups";
import { partName } from "../../../lib/format/names";
import { TABLE_ROWS } from "../../../lib/format/paged";
import { Link } from "../../fittings/link";
import { RuleList } from "../../fittings/rule-words";
import { words } from "../../language/language";
import styles from "./budget.module.css";
import type { MeasuredFeature } from "./plant-budget";

/** Which features the table is about: their rules are changed on the plan page of each. */
export function GroupFeatures({ group }: { group: PlanGroup<MeasuredFeature> }) {
  const { group: said } = use(words()).budget;
  return (
    <details className={styles.fold}>
      <summary>{said.summary(group.features.length)}</summary>
      <div className={styles.foldBody}>
        <div>
          <h3>{said.rules}</h3>
          <RuleList slugs={group.rules} />
        </div>
        <div>
          <h3>{said.features}</h3>
          <p className={styles.soft}>{said.who}</p>
          <ul className={styles.features}>
            {group.features.slice(0, TABLE_ROWS).map(({ id, name, part }) => (
              <li key={id}>
                <Link href={`/plan/features/${id}`}>{name}</Link>{" "}
                <span className={styles.soft}>{partName(part)}</span>
              </li>
            ))}
          </ul>
          {group.features.length > TABLE_ROWS ? (
            <p className={styles.soft}>{said.more(group.features.length - TABLE_ROWS)}</p>
          ) : null}
        </div>
      </div>
    </details>
  );
}
