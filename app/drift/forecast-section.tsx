import { use } from "react";
import type { FlagRow } from "../../db/queries/drift";
import { quantileWords } from "../../lib/drift/flag-words";
import type { FeatureForecast } from "../../lib/drift/forecast";
import { placesOf } from "../../lib/format/numbers";
import { Num } from "../fittings/num";
import { Table } from "../fittings/table";
import { words } from "../language/language";
import styles from "./drift.module.css";
import { FeatureLink } from "./evidence";
import { FanChart } from "./fan-chart";
import type { ScanNames } from "./scan-names";

/** How long until the means reach their limits, if it goes on like this. */
export function ForecastSection({ flag, names }: { flag: FlagRow; names: ScanNames }) {
  const { forecast: said } = use(words()).driftPage;
  const { forecast } = flag.latest;
  if (forecast === null) {
    return (
      <p className={styles.remarkWide}>
        {flag.source.kind === "lot" ? said.lot : flag.latest.kind === "step" ? said.step : said.none}
      </p>
    );
  }
  const first = forecast.features.find(({ limit }) => limit === "tolerance");
  const parts = new Set(forecast.features.map(({ part }) => part));
  return (
    <>
      {first ? (
        <FanChart
          flag={flag}
          forecasts={forecast.features.filter(
            (one) => one.part === first.part && one.feature === first.feature,
          )}
          resolution={names.feature(first.part, first.feature)?.resolution ?? null}
        />
      ) : null}
      <Table
        caption={said.caption}
        rows={forecast.features.filter(({ limit }) => limit !== "capability")}
        rowKey={({ part, feature, limit }) => `${part} ${feature} ${limit}`}
        columns={[
          {
            key: "feature",
            head: said.heads.feature,
            width: "34%",
            cell: (row) => <FeatureLink shift={row} flag={flag} names={names} withPart={parts.size > 1} />,
          },
          {
            key: "limit",
            head: said.heads.limit,
            tight: true,
            cell: ({ limit, side }) => said.limits[limit][side],
          },
          {
            key: "bound",
            head: said.heads.bound,
            figures: true,
            cell: (row) => <Bound row={row} names={names} value={row.bound} />,
          },
          {
            key: "level",
            head: said.heads.level,
            figures: true,
            cell: (row) => <Bound row={row} names={names} value={row.level} />,
          },
          {
            key: "pieces",
            head: said.heads.pieces,
            cell: ({ pieces }) => quantileWords(pieces, "piece", said),
          },
          {
            key: "lots",
            head: said.heads.lots,
            cell: ({ lots, shareOfLife }) =>
              lots !== null
                ? quantileWords(lots, "lot", said)
                : shareOfLife === null || !Number.isFinite(shareOfLife.median)
                  ? "–"
                  : said.ofLife(Math.round(100 * shareOfLife.median)),
          },
        ]}
      />
      {forecast.features.some(({ limit }) => limit === "control") ? (
        <p className={styles.remark}>{said.scatter}</p>
      ) : null}
      {forecast.notForeseeable.length > 0 ? (
        <p className={styles.remark}>
          {said.notForeseeable} {forecast.notForeseeable.map(({ feature }) => feature).join(", ")}.
        </p>
      ) : null}
    </>
  );
}

function Bound({ row, value, names }: { row: FeatureForecast; value: number; names: ScanNames }) {
  const feature = names.feature(row.part, row.feature);
  return <Num value={value} places={placesOf(feature?.resolution ?? null) + 1} unit={feature?.unit} />;
}
