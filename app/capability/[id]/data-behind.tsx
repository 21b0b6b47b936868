import { use } from "react";
import type { ExclusionRow } from "../../../db/queries/history";
import type { FeatureStudy, StudyWindow } from "../../../lib/capability/feature-study";
import { significant } from "../../../lib/format/figures";
import { withUnit } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { Facts } from "../../fittings/facts";
import { Filled } from "../../fittings/filled";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import type { ChosenWindow } from "../chosen-window";
import styles from "./detail.module.css";

/** What the study rests on: which readings, how they spread, and what was left out and why. */
export function DataBehind({
  result,
  exclusions,
  chosen,
  feature,
  zone,
}: {
  result: FeatureStudy;
  exclusions: readonly ExclusionRow[];
  chosen: ChosenWindow;
  feature: ShownFeature;
  zone: string;
}) {
  const { capability, claims } = use(words());
  const { data: said } = capability;
  const estimators: Readonly<Record<string, string>> = claims.estimators;
  const { study, limits, firstAt, lastAt, subgroups, pieces, lots, excludedReadings } = result;
  const { places, unit } = feature;
  return (
    <>
      <Facts>
        <div>
          <dt>{said.window}</dt>
          <dd>
            {chosen.words}:{" "}
            <Filled
              text={said.span}
              holes={{ first: <When at={firstAt} zone={zone} />, last: <When at={lastAt} zone={zone} /> }}
            />
          </dd>
        </div>
        <div>
          <dt>{said.readings}</dt>
          <dd>{said.of(study.count, pieces, subgroups, lots)}</dd>
        </div>
        <div>
          <dt>{said.mean}</dt>
          <dd>
            <Num value={study.mean} places={places + 1} unit={unit} />
          </dd>
        </div>
        <div>
          <dt>{said.within}</dt>
          <dd>
            {limits.ok ? (
              <>
                {withUnit(significant(limits.value.sigma, 3), unit)}
                <span className={styles.estimator}>
                  {estimators[limits.value.estimator] ?? limits.value.estimator}
                </span>
              </>
            ) : (
              said.notEstimated
            )}
          </dd>
        </div>
        <div>
          <dt>{said.overall}</dt>
          <dd>
            {study.sdOverall === null ? said.notEstimated : withUnit(significant(study.sdOverall, 3), unit)}
            <span className={styles.estimator}>{said.ofAll}</span>
          </dd>
        </div>
        <div>
          <dt>{said.values}</dt>
          <dd>{feature.isReduced ? said.reduced : said.asMeasured}</dd>
        </div>
        <div>
          <dt>{said.leftOut}</dt>
          <dd>{excludedReadings === 0 ? said.nothing : said.count(excludedReadings)}</dd>
        </div>
      </Facts>
      {exclusions.length === 0 ? null : (
        <Table
          caption={said.exclusions(excludedReadings)}
          rows={exclusions}
          rowKey={({ id }) => id}
          columns={[
            { key: "cause", head: said.heads.cause, cell: ({ cause }) => cause },
            { key: "from", head: said.heads.from, cell: ({ from }) => <When at={from} zone={zone} /> },
            { key: "to", head: said.heads.to, cell: ({ to }) => <When at={to} zone={zone} /> },
            { key: "by", head: said.heads.by, cell: ({ by }) => by ?? said.notKnown },
          ]}
        />
      )}
    </>
  );
}

/** Exclusions that touch the window. */
export function exclusionsWithin(
  exclusions: readonly ExclusionRow[],
  { from, to }: StudyWindow,
): ExclusionRow[] {
  return exclusions.filter((each) => (from === null || each.to >= from) && (to === null || each.from <= to));
}
