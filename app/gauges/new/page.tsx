import { requirePage } from "../../access";
import { Link } from "../../fittings/link";
import { PageFrame } from "../../fittings/page-frame";
import { fieldsOfGauge } from "../gauge-entry";
import { GaugeForm } from "../gauge-form";

export const metadata = { title: "Enter a gauge" };

/** A gauge that no measurement file has named yet. */
export default async function NewGaugePage() {
  await requirePage("/gauges/new");
  return (
    <PageFrame
      title="Enter a gauge"
      above={<Link href="/gauges">Gauges</Link>}
      purpose="Measurement files find it by its code. Everything else can be entered later."
    >
      <GaugeForm fields={fieldsOfGauge("", null)} />
    </PageFrame>
  );
}
