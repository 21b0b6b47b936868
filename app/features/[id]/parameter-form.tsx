import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { Button } from "../../fittings/controls";
import { CheckField, TextField } from "../../fittings/fields";
import styles from "./panels.module.css";

/** Parameters of a chart with a memory. They go into the address, so that a view can be shared. */
export function ParameterForm({
  chart,
  hidden,
}: {
  chart: MemoryChart;
  hidden: Readonly<Record<string, string>>;
}) {
  return (
    <form className={styles.parameters} method="get" key={JSON.stringify(chart)}>
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {chart.kind === "ewma" ? (
        <>
          <TextField
            label="λ, weight of the newest point"
            name="lambda"
            inputMode="decimal"
            defaultValue={chart.smoothing}
            hint="0.01 to 1; small ones find small shifts."
          />
          <TextField
            label="L, limits in sigma"
            name="L"
            inputMode="decimal"
            defaultValue={chart.width}
            hint="Of the weighted average."
          />
        </>
      ) : (
        <>
          <TextField
            label="k, half the shift to find"
            name="k"
            inputMode="decimal"
            defaultValue={chart.reference}
            hint="In sigma of the plotted point."
          />
          <TextField
            label="h, where it signals"
            name="h"
            inputMode="decimal"
            defaultValue={chart.decisionInterval}
            hint="In sigma of the plotted point."
          />
          <CheckField
            label="Fast initial response"
            hint="Sums begin at h/2."
            name="fir"
            defaultChecked={chart.headStart > 0}
          />
        </>
      )}
      <Button type="submit">Draw it so</Button>
    </form>
  );
}
