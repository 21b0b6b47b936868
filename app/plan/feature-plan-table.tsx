import { use } from "react";
import type { FeatureRow } from "../../db/queries/features";
import { partName } from "../../lib/format/names";
import { placesOf, placesWritten, unitSign } from "../../lib/format/numbers";
import { ruleSetName } from "../../lib/rules/rule-set-name";
import type { Words } from "../../lib/words/words";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { Num } from "../fittings/num";
import { type Column, Table } from "../fittings/table";
import { words } from "../language/language";

/** What the control plan says of each feature, one line each. */
export function FeaturePlanTable({
  features,
  isOnePart,
}: {
  features: readonly FeatureRow[];
  isOnePart: boolean;
}) {
  const { plan: all, charts, performance } = use(words());
  const { table: said } = all;
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
      <Num value={value(feature)} places={placesIn(feature)} alignTo={alignTo} absent={all.notGiven} />
    ),
  });
  return (
    <Table
      caption={said.caption}
      isCaptionShown={false}
      rows={features}
      rowKey={({ id }) => id}
      empty={
        <Note kind="empty" title={said.none}>
          {said.noneWhy}
        </Note>
      }
      columns={[
        {
          key: "name",
          head: said.heads.feature,
          cell: ({ id, name }) => <Link href={`/plan/features/${id}`}>{name}</Link>,
        },
        ...(isOnePart
          ? []
          : [
              {
                key: "part",
                head: said.heads.part,
                tight: true,
                cell: ({ part }: FeatureRow) => partName(part),
              },
            ]),
        {
          key: "kind",
          head: said.heads.kind,
          cell: ({ kind, keyCharacteristic }) =>
            keyCharacteristic ? all.key(charts.features[kind]) : charts.features[kind],
        },
        figure("lower", said.heads.lower, ({ plan }) => plan.tolerance.lower),
        figure("nominal", said.heads.nominal, ({ nominal }) => nominal),
        figure("upper", said.heads.upper, ({ plan }) => plan.tolerance.upper),
        { key: "unit", head: said.heads.unit, cell: ({ unit }) => unitSign(unit) || "–" },
        {
          key: "chart",
          head: said.heads.chart,
          tight: true,
          cell: ({ plan }) => chartShort(plan, said, charts),
        },
        {
          key: "size",
          head: "n",
          figures: true,
          cell: ({ plan }) => <Num value={plan.subgroupSize} places={0} />,
        },
        {
          key: "rules",
          head: said.heads.rules,
          tight: true,
          cell: ({ plan }) => ruleSetName(plan.rules, performance.sets),
        },
      ]}
    />
  );
}

/** What the chart shows, and what watches beside it. */
function chartShort(
  { chart, counts, alsoWatch }: FeatureRow["plan"],
  said: Words["plan"]["table"],
  charts: Words["charts"],
): string {
  const own = counts ? said.counts(counts.chart) : charts.short[chart];
  return alsoWatch ? `${own}; ${alsoWatch.kind.toUpperCase()}` : own;
}

/** Decimals that show this feature's resolution and everything the drawing states. */
function placesIn({ nominal, resolution, plan }: FeatureRow): number {
  const stated = [nominal, plan.tolerance.lower, plan.tolerance.upper].filter((value) => value !== null);
  return Math.max(resolution === null ? 0 : placesOf(resolution), ...stated.map(placesWritten), 0);
}
