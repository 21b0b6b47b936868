import { percent } from "../../../lib/capability/words";
import { fractionWords } from "../../../lib/format/figures";
import { counted, whole } from "../../../lib/format/numbers";
import type { ShownStudy } from "../../../lib/statement/content";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";

type Row = { side: "below" | "above"; name: string };

const SIDES: readonly Row[] = [
  { side: "below", name: "Below the lower limit" },
  { side: "above", name: "Above the upper limit" },
];

/** Fractions outside each tolerance limit: as counted with their exact interval, and as the model has them. */
export function OutsideTable({ study }: { study: ShownStudy }) {
  const rows = SIDES.filter(({ side }) => study.observedOutside[side] !== null);
  return (
    <Table
      caption={`Readings outside the tolerance, of ${counted(study.count, "reading")}`}
      rows={rows}
      rowKey={({ side }) => side}
      columns={[
        { key: "name", head: "Where", cell: ({ name }) => name },
        {
          key: "count",
          head: "Counted",
          figures: true,
          cell: ({ side }) => whole(study.observedOutside[side] ?? 0),
        },
        {
          key: "fraction",
          head: "Fraction",
          figures: true,
          cell: ({ side }) => fractionWords((study.observedOutside[side] ?? 0) / study.count),
        },
        {
          key: "interval",
          head: `Exact ${percent(study.confidence)} interval`,
          figures: true,
          cell: ({ side }) => <ExactInterval interval={study.observedIntervals[side]} />,
        },
        {
          key: "expected",
          head: study.modelStudy === null ? "By the normal curve" : "By the fitted curve",
          figures: true,
          cell: ({ side }) => {
            const expected = study.expectedOutside[side];
            return expected === null ? <Num value={null} absent="not computed" /> : fractionWords(expected);
          },
        },
      ]}
    />
  );
}

function ExactInterval({ interval }: { interval: readonly [number, number] | null }) {
  if (interval === null) return <Num value={null} absent="not computed" />;
  return `${fractionWords(interval[0])} to ${fractionWords(interval[1])}`;
}
