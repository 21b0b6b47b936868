import { use } from "react";
import { inField } from "../../../lib/format/typed-number";
import type { MemoryChart } from "../../../lib/plan/feature-plan";
import { Button } from "../../fittings/controls";
import { CheckField, TextField } from "../../fittings/fields";
import { words } from "../../language/language";
import styles from "./panels.module.css";

/** Parameters of a chart with a memory. They go into the address, so that a view can be shared. */
export function ParameterForm({
  chart,
  hidden,
}: {
  chart: MemoryChart;
  hidden: Readonly<Record<string, string>>;
}) {
  const { parameters: said } = use(words()).otherCharts.memory;
  return (
    <form className={styles.parameters} method="get" key={JSON.stringify(chart)}>
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {chart.kind === "ewma" ? (
        <>
          <TextField
            label={said.lambda}
            name="lambda"
            inputMode="decimal"
            defaultValue={inField(chart.smoothing)}
            hint={said.lambdaHint}
          />
          <TextField
            label={said.L}
            name="L"
            inputMode="decimal"
            defaultValue={inField(chart.width)}
            hint={said.LHint}
          />
        </>
      ) : (
        <>
          <TextField
            label={said.k}
            name="k"
            inputMode="decimal"
            defaultValue={inField(chart.reference)}
            hint={said.sigmaHint}
          />
          <TextField
            label={said.h}
            name="h"
            inputMode="decimal"
            defaultValue={inField(chart.decisionInterval)}
            hint={said.sigmaHint}
          />
          <CheckField
            label={said.fast}
            hint={said.fastHint}
            name="fir"
            defaultChecked={chart.headStart > 0}
          />
        </>
      )}
      <Button type="submit">{said.draw}</Button>
    </form>
  );
}
