import { use } from "react";
import { percent } from "../../../lib/capability/words";
import { fractionWords } from "../../../lib/format/figures";
import { whole } from "../../../lib/format/numbers";
import type { ShownStudy } from "../../../lib/statement/content";
import { Num } from "../../fittings/num";
import { Table } from "../../fittings/table";
import { words } from "../../language/language";

type Row = { side: "below" | "above" };

const SIDES: readonly Row[] = [{ side: "below" }, { side: "above" }];

/** Fractions outside each tolerance limit: as counted with their exact interval, and as the model has them. */
export function OutsideTable({ study }: { study: ShownStudy }) {
  const { capability, figures } = use(words());
  const { outside: said } = capability;
  const { heads } = said;
  const rows = SIDES.filter(({ side }) => study.observedOutside[side] !== null);
  return (
    <Table
      caption={said.caption(study.count)}
      rows={rows}
      rowKey={({ side }) => side}
      columns={[
        { key: "name", head: heads.where, cell: ({ side }) => said[side] },
        {
          key: "count",
          head: heads.counted,
          figures: true,
          cell: ({ side }) => whole(study.observedOutside[side] ?? 0),
        },
        {
          key: "fraction",
          head: heads.fraction,
          figures: true,
          cell: ({ side }) => fractionWords((study.observedOutside[side] ?? 0) / study.count, figures),
        },
        {
          key: "interval",
          head: said.interval(percent(study.confidence)),
          figures: true,
          cell: ({ side }) => <ExactInterval interval={study.observedIntervals[side]} />,
        },
        {
          key: "expected",
          head: study.modelStudy === null ? heads.normal : heads.fitted,
          figures: true,
          cell: ({ side }) => {
            const expected = study.expectedOutside[side];
            return expected === null ? (
              <Num value={null} absent={figures.notComputed} />
            ) : (
              fractionWords(expected, figures)
            );
          },
        },
      ]}
    />
  );
}

function ExactInterval({ interval }: { interval: readonly [number, number] | null }) {
  const { figures } = use(words());
  if (interval === null) return <Num value={null} absent={figures.notComputed} />;
  return figures.fromTo(fractionWords(interval[0], figures), fractionWords(interval[1], figures));
}
