import type { FlagRow } from "../../db/queries/drift";
import { quantileWords } from "../../lib/drift/flag-words";
import type { FeatureForecast } from "../../lib/drift/forecast";
import { placesOf } from "../../lib/format/numbers";
import { Num } from "../fittings/num";
import { Table } from "../fittings/table";
import styles from "./drift.module.css";
import { FeatureLink } from "./evidence";
import { FanChart } from "./fan-chart";
import type { ScanNames } from "./scan-names";

const LIMITS = {
  control: "control limit",
  capability: "3 sigma inside the tolerance",
  tolerance: "tolerance limit",
} as const;

/** How long until the means reach their limits, if it goes on like this. */
export function ForecastSection({ flag, names }: { flag: FlagRow; names: ScanNames }) {
  const { forecast } = flag.latest;
  if (forecast === null) {
    return (
      <p className={styles.remarkWide}>
        {flag.source.kind === "lot"
          ? "Only this lot was different, so nothing goes on. Its pieces may still want a look."
          : flag.latest.kind === "step"
            ? "It moved at once and stays where it is, so there is no rate to go on with and no forecast."
            : "There is no forecast for a change of this kind."}
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
        caption="When the mean meets its limits, if it goes on at this rate: median, and in brackets 90 of 100 cases"
        rows={forecast.features.filter(({ limit }) => limit !== "capability")}
        rowKey={({ part, feature, limit }) => `${part} ${feature} ${limit}`}
        columns={[
          {
            key: "feature",
            head: "Feature",
            width: "34%",
            cell: (row) => <FeatureLink shift={row} flag={flag} names={names} withPart={parts.size > 1} />,
          },
          { key: "limit", head: "Limit", tight: true, cell: ({ limit, side }) => `${side} ${LIMITS[limit]}` },
          {
            key: "bound",
            head: "At",
            figures: true,
            cell: (row) => <Bound row={row} names={names} value={row.bound} />,
          },
          {
            key: "level",
            head: "Mean now",
            figures: true,
            cell: (row) => <Bound row={row} names={names} value={row.level} />,
          },
          { key: "pieces", head: "Pieces left", cell: ({ pieces }) => quantileWords(pieces, "piece") },
          {
            key: "lots",
            head: "Lots left",
            cell: ({ lots, shareOfLife }) =>
              lots !== null
                ? quantileWords(lots, "lot")
                : shareOfLife === null || !Number.isFinite(shareOfLife.median)
                  ? "–"
                  : `at ${Math.round(100 * shareOfLife.median)} % of an edge's life`,
          },
        ]}
      />
      {forecast.notForeseeable.length > 0 ? (
        <p className={styles.remark}>
          Not foreseeable yet, for they may as well stand still:{" "}
          {forecast.notForeseeable.map(({ feature }) => feature).join(", ")}.
        </p>
      ) : null}
    </>
  );
}

function Bound({ row, value, names }: { row: FeatureForecast; value: number; names: ScanNames }) {
  const feature = names.feature(row.part, row.feature);
  return <Num value={value} places={placesOf(feature?.resolution ?? null) + 1} unit={feature?.unit} />;
}
