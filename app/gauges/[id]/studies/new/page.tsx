import { notFound } from "next/navigation";
import { listFeatures } from "../../../../../db/queries/features";
import { gaugeById, gaugedFeatures } from "../../../../../db/queries/gauges";
import { partName } from "../../../../../lib/format/names";
import { toleranceWords } from "../../../../../lib/format/numbers";
import { calendarDay } from "../../../../../lib/format/times";
import { requirePage } from "../../../../access";
import { database } from "../../../../database";
import { Link } from "../../../../fittings/link";
import { PageFrame } from "../../../../fittings/page-frame";
import { words } from "../../../../language/language";
import { plant } from "../../../../plant";
import { StudyForm } from "../../../study-form";

export async function generateMetadata() {
  return { title: (await words()).studyForm.enter };
}

/** The readings of a study, pasted, typed or from a file. */
export default async function NewStudyPage({ params }: { params: Promise<{ id: string }> }) {
  await requirePage("/gauges/[id]/studies/new");
  const id = Number((await params).id);
  const db = await database();
  const gauge = Number.isSafeInteger(id) ? await gaugeById(db, id) : null;
  if (!gauge) notFound();
  const { now, zone } = await plant();
  const { studyForm: said, gauges, figures } = await words();
  const own = new Set(((await gaugedFeatures(db)).get(id) ?? []).map(({ feature }) => feature.id));
  const features = await listFeatures(db);
  // What the gauge measures every day comes first.
  const sorted = [
    ...features.filter((one) => own.has(one.id)),
    ...features.filter((one) => !own.has(one.id)),
  ];
  return (
    <PageFrame
      title={said.enterOf(gauge.code)}
      above={
        <>
          <Link href="/gauges">{gauges.title}</Link> · <Link href={`/gauges/${id}`}>{gauge.code}</Link>
        </>
      }
      purpose={said.enterPurpose}
    >
      <StudyForm
        gaugeId={id}
        words={said.form}
        today={calendarDay(now, zone)}
        features={sorted.map((feature) => ({
          value: String(feature.id),
          label: `${partName(feature.part)} ${feature.name} (${toleranceWords(feature.plan.tolerance, feature, figures)})`,
        }))}
      />
    </PageFrame>
  );
}
