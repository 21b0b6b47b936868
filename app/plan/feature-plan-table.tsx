import type { FeatureRow } from "../../db/queries/features";
import { CHART_SHORT, partName } from "../../lib/format/names";
import { placesOf, placesWritten, unitSign } from "../../lib/format/numbers";
import { ruleSetName } from "../../lib/rules/rule-set-name";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Num } from "../fittings/num";
import { type Column, Table } from "../fittings/table";

/** What the control plan says of each feature, one line each. */
export function FeaturePlanTable({
  features,
  isOnePart,
}: {
  features: readonly FeatureRow[];
  isOnePart: boolean;
}) {
  const alignTo = Math.max(0, ...features.map(placesIn));
  const figure = (
    key: string,
    head: string,
    value: (feature: FeatureRow) => number | null,
  ): Column<FeatureRow> => ({
    key,
    head,
    figures: true,
    cell: (feature) => (
      <Num value={value(feature)} places={placesIn(feature)} alignTo={alignTo} absent="not given" />
    ),
  });
  return (
    <Table
      caption="Features of the control plan"
      isCaptionShown={false}
      rows={features}
      rowKey={({ id }) => id}
      empty={
        <Note kind="empty" title="No features yet">
          This part has none in the control plan. Measurement files bring them along, or an engineer enters
          them.
        </Note>
      }
      columns={[
        {
          key: "name",
          head: "Feature",
          cell: ({ id, name }) => <Link href={`/plan/features/${id}`}>{name}</Link>,
        },
        ...(isOnePart
          ? []
          : [{ key: "part", head: "Part", tight: true, cell: ({ part }: FeatureRow) => partName(part) }]),
        {
          key: "kind",
          head: "Kind",
          cell: ({ kind, keyCharacteristic }) => (keyCharacteristic ? `${kind}, key` : kind),
        },
        figure("lower", "Lower limit", ({ plan }) => plan.tolerance.lower),
        figure("nominal", "Nominal", ({ nominal }) => nominal),
        figure("upper", "Upper limit", ({ plan }) => plan.tolerance.upper),
        { key: "unit", head: "Unit", cell: ({ unit }) => unitSign(unit) || "–" },
        { key: "chart", head: "Chart of", tight: true, cell: ({ plan }) => chartShort(plan) },
        {
          key: "size",
          head: "n",
          figures: true,
          cell: ({ plan }) => <Num value={plan.subgroupSize} places={0} />,
        },
        { key: "rules", head: "Run rules", tight: true, cell: ({ plan }) => ruleSetName(plan.rules) },
      ]}
    />
  );
}

/** What the chart shows, and what watches beside it. */
function chartShort({ chart, counts, alsoWatch }: FeatureRow["plan"]): string {
  const own = counts ? `counts (${counts.chart})` : CHART_SHORT[chart];
  return alsoWatch ? `${own}; ${alsoWatch.kind.toUpperCase()}` : own;
}

/** Decimals that show this feature's resolution and everything the drawing states. */
function placesIn({ nominal, resolution, plan }: FeatureRow): number {
  const stated = [nominal, plan.tolerance.lower, plan.tolerance.upper].filter((value) => value !== null);
  return Math.max(resolution === null ? 0 : placesOf(resolution), ...stated.map(placesWritten), 0);
}
