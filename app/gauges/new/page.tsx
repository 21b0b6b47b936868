import { requirePage } from "../../access";
import { Link } from "../../fittings/link";
import { PageFrame } from "../../fittings/page-frame";
import { words } from "../../language/language";
import { fieldsOfGauge } from "../gauge-entry";
import { GaugeForm } from "../gauge-form";

export async function generateMetadata() {
  return { title: (await words()).gauges.enter };
}

/** A gauge that no measurement file has named yet. */
export default async function NewGaugePage() {
  await requirePage("/gauges/new");
  const { gauges: said } = await words();
  return (
    <PageFrame title={said.enter} above={<Link href="/gauges">{said.title}</Link>} purpose={said.newPurpose}>
      <GaugeForm fields={fieldsOfGauge("", null)} words={said.form} />
    </PageFrame>
  );
}
