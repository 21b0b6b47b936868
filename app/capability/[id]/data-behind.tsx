import type { ExclusionRow } from "../../../db/queries/history";
import type { FeatureStudy, StudyWindow } from "../../../lib/capability/feature-study";
import { ESTIMATOR_WORDS, significant } from "../../../lib/format/figures";
import { counted, whole, withUnit } from "../../../lib/format/numbers";
import type { ShownFeature } from "../../../lib/format/shown-feature";
import { Facts } from "../../fittings/facts";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
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
  const { study, limits, firstAt, lastAt, subgroups, pieces, lots, excludedReadings } = result;
  const { places, unit } = feature;
  return (
    <>
      <Facts>
        <div>
          <dt>Window</dt>
          <dd>
            {chosen.words}: <When at={firstAt} zone={zone} /> to <When at={lastAt} zone={zone} />
          </dd>
        </div>
        <div>
          <dt>Readings</dt>
          <dd>
            {whole(study.count)} on {counted(pieces, "piece")}, {counted(subgroups, "subgroup")},{" "}
            {lots === null ? "lots not stated" : counted(lots, "lot")}
          </dd>
        </div>
        <div>
          <dt>Mean</dt>
          <dd>
            <Num value={study.mean} places={places + 1} unit={unit} />
          </dd>
        </div>
        <div>
          <dt>Sigma within subgroups</dt>
          <dd>
            {limits.ok ? (
              <>
                {withUnit(significant(limits.value.sigma, 3), unit)}
                <span className={styles.estimator}>
                  {ESTIMATOR_WORDS[limits.value.estimator] ?? limits.value.estimator}
                </span>
              </>
            ) : (
              "not to be estimated"
            )}
          </dd>
        </div>
        <div>
          <dt>Overall standard deviation</dt>
          <dd>
            {study.sdOverall === null
              ? "not to be estimated"
              : withUnit(significant(study.sdOverall, 3), unit)}
            <span className={styles.estimator}>of all readings, n − 1 below</span>
          </dd>
        </div>
        <div>
          <dt>Values</dt>
          <dd>{feature.isReduced ? "reduced to 20 °C" : "as measured"}</dd>
        </div>
        <div>
          <dt>Left out with a cause</dt>
          <dd>{excludedReadings === 0 ? "nothing" : counted(excludedReadings, "reading")}</dd>
        </div>
      </Facts>
      {exclusions.length === 0 ? null : (
        <Table
          caption={`${counted(excludedReadings, "reading")} left out with an assigned cause`}
          rows={exclusions}
          rowKey={({ id }) => id}
          columns={[
            { key: "cause", head: "Cause", cell: ({ cause }) => cause },
            { key: "from", head: "From", cell: ({ from }) => <When at={from} zone={zone} /> },
            { key: "to", head: "To", cell: ({ to }) => <When at={to} zone={zone} /> },
            { key: "by", head: "Left out by", cell: ({ by }) => by ?? "not known" },
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
