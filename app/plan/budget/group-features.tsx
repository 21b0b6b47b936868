import type { PlanGroup } from "../../../lib/alarm-budget/plan-groups";
import { partName } from "../../../lib/format/names";
import { counted } from "../../../lib/format/numbers";
import { Link } from "../../fittings/link";
import { RuleList } from "../../fittings/rule-words";
import styles from "./budget.module.css";
import type { MeasuredFeature } from "./plant-budget";

/** Which features the table is about: their rules are changed on the plan page of each. */
export function GroupFeatures({ group }: { group: PlanGroup<MeasuredFeature> }) {
  return (
    <details className={styles.fold}>
      <summary>
        The {counted(group.features.length, "feature")} of this plan, and where to change{" "}
        {group.features.length === 1 ? "its" : "their"} rules
      </summary>
      <div className={styles.foldBody}>
        <div>
          <h3>Run rules in force</h3>
          <RuleList slugs={group.rules} />
        </div>
        <div>
          <h3>Features</h3>
          <p className={styles.soft}>
            An engineer changes the rules on a feature's plan page, with a reason.
          </p>
          <ul className={styles.features}>
            {group.features.map(({ id, name, part }) => (
              <li key={id}>
                <Link href={`/plan/features/${id}`}>{name}</Link>{" "}
                <span className={styles.soft}>{partName(part)}</span>
              </li>
            ))}
          </ul>
        </div>
      </div>
    </details>
  );
}
