import type { RuleCost } from "../../lib/alarm-budget/rule-cost";
import { Table } from "../fittings/table";
import { SimulatedFigure } from "./budget/figures";
import styles from "./plan.module.css";

export type CostLine = { name: string; cost: RuleCost };

/** What rule sets cost in false alarms and give in notice, one line each, to be read against each other. */
export function RuleCostTable({ lines }: { lines: readonly CostLine[] }) {
  const shifts = lines[0]?.cost.detection.map(({ shift }) => shift) ?? [];
  return (
    <Table
      caption="What the rules cost: false alarms of both charts, and subgroups until a lasting shift is noticed"
      rows={lines}
      rowKey={({ name }) => name}
      columns={[
        { key: "rules", head: "Rules", cell: ({ name }) => <div className={styles.named}>{name}</div> },
        {
          key: "alarms",
          head: "False alarms per 1,000",
          figures: true,
          cell: ({ cost }) => <SimulatedFigure {...cost.perThousand} places={1} absent="hardly ever one" />,
        },
        ...shifts.map((shift, i) => ({
          key: String(shift),
          head: `Notice at ${shift} σ`,
          figures: true,
          cell: ({ cost }: CostLine) => {
            const found = cost.detection[i]?.subgroups ?? null;
            return (
              <SimulatedFigure
                value={found?.value ?? null}
                standardError={found?.standardError ?? null}
                places={1}
                absent="hardly ever noticed"
              />
            );
          },
        })),
      ]}
    />
  );
}
