import type { RuleCost } from "../../lib/alarm-budget/rule-cost";
import { fill } from "../../lib/words/fill";
import type { Words } from "../../lib/words/words";
import { Table } from "../fittings/table";
import { SimulatedFigure } from "./budget/figures";
import styles from "./plan.module.css";

export type CostLine = { name: string; cost: RuleCost };

/** What rule sets cost in false alarms and give in notice, one line each, to be read against each other. */
export function RuleCostTable({
  lines,
  words,
}: {
  lines: readonly CostLine[];
  words: Words["plan"]["cost"];
}) {
  const shifts = lines[0]?.cost.detection.map(({ shift }) => shift) ?? [];
  return (
    <Table
      caption={words.caption}
      rows={lines}
      rowKey={({ name }) => name}
      columns={[
        { key: "rules", head: words.rules, cell: ({ name }) => <div className={styles.named}>{name}</div> },
        {
          key: "alarms",
          head: words.alarms,
          figures: true,
          cell: ({ cost }) => (
            <SimulatedFigure
              {...cost.perThousand}
              places={1}
              absent={words.hardlyEver}
              simulated={words.simulated}
            />
          ),
        },
        ...shifts.map((shift, i) => ({
          key: String(shift),
          head: fill(words.notice, { shift }),
          figures: true,
          cell: ({ cost }: CostLine) => {
            const found = cost.detection[i]?.subgroups ?? null;
            return (
              <SimulatedFigure
                value={found?.value ?? null}
                standardError={found?.standardError ?? null}
                places={1}
                absent={words.hardlyNoticed}
                simulated={words.simulated}
              />
            );
          },
        })),
      ]}
    />
  );
}
