import { use } from "react";
import type { Statement } from "../../../../db/queries/statements";
import { percent } from "../../../../lib/capability/words";
import { signedWindowIn } from "../../../../lib/statement/signed-window";
import { Facts } from "../../../fittings/facts";
import { Filled } from "../../../fittings/filled";
import { When } from "../../../fittings/when";
import { words } from "../../../language/language";
import detail from "../../[id]/detail.module.css";
import styles from "../statements.module.css";

/** Window, lots, software and digests of a statement. */
export function Provenance({
  statement: { content, contentDigest, readingsDigest },
}: {
  statement: Pick<Statement, "content" | "contentDigest" | "readingsDigest">;
}) {
  const language = use(words());
  const { provenance: said } = language.statements;
  const { window, plant, software, confidence, features } = content;
  const readings = features.reduce((sum, { study }) => sum + study.count, 0);
  return (
    <Facts>
      <div>
        <dt>{said.window}</dt>
        <dd>
          {signedWindowIn(content, language)}
          <span className={detail.estimator}>
            <Filled
              text={said.to}
              holes={{
                from: window.from === null ? said.beginning : <When at={window.from} zone={plant.zone} />,
                to: <When at={window.to} zone={plant.zone} />,
              }}
            />
          </span>
        </dd>
      </div>
      <div>
        <dt>{said.lots}</dt>
        <dd>{window.lots === null ? said.allLots : window.lots.join(", ")}</dd>
      </div>
      <div>
        <dt>{said.readings}</dt>
        <dd>{said.count(readings)}</dd>
      </div>
      <div>
        <dt>{said.bounds}</dt>
        <dd>{said.confidence(percent(confidence))}</dd>
      </div>
      <div>
        <dt>{said.computedBy}</dt>
        <dd>Steadyrest {software}</dd>
      </div>
      <div>
        <dt>{said.contentDigest}</dt>
        <dd className={styles.digest}>{contentDigest}</dd>
      </div>
      <div>
        <dt>{said.readingsDigest}</dt>
        <dd className={styles.digest}>{readingsDigest}</dd>
      </div>
    </Facts>
  );
}
