import type { Statement } from "../../../../db/queries/statements";
import { percent } from "../../../../lib/capability/words";
import { counted } from "../../../../lib/format/numbers";
import { Facts } from "../../../fittings/facts";
import { When } from "../../../fittings/when";
import detail from "../../[id]/detail.module.css";
import styles from "../statements.module.css";

/** Window, lots, software and digests of a statement. */
export function Provenance({
  statement: { content, contentDigest, readingsDigest },
}: {
  statement: Pick<Statement, "content" | "contentDigest" | "readingsDigest">;
}) {
  const { window, plant, software, confidence, features } = content;
  const readings = features.reduce((sum, { study }) => sum + study.count, 0);
  return (
    <Facts>
      <div>
        <dt>Window</dt>
        <dd>
          {window.words}
          <span className={detail.estimator}>
            {window.from === null ? "from the beginning" : <When at={window.from} zone={plant.zone} />} to{" "}
            <When at={window.to} zone={plant.zone} />
          </span>
        </dd>
      </div>
      <div>
        <dt>Lots</dt>
        <dd>{window.lots === null ? "all" : window.lots.join(", ")}</dd>
      </div>
      <div>
        <dt>Readings kept with it</dt>
        <dd>{counted(readings, "reading")}</dd>
      </div>
      <div>
        <dt>Bounds and intervals</dt>
        <dd>{percent(confidence)} confidence</dd>
      </div>
      <div>
        <dt>Computed by</dt>
        <dd>Steadyrest {software}</dd>
      </div>
      <div>
        <dt>SHA-256 of the content</dt>
        <dd className={styles.digest}>{contentDigest}</dd>
      </div>
      <div>
        <dt>SHA-256 of the readings</dt>
        <dd className={styles.digest}>{readingsDigest}</dd>
      </div>
    </Facts>
  );
}
