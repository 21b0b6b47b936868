import { notFound } from "next/navigation";
import { listParts } from "../../../../db/queries/features";
import { partName } from "../../../../lib/format/names";
import { USUAL_RULES } from "../../../../lib/plan/suggest-plan";
import { requirePage } from "../../../access";
import { database } from "../../../database";
import { Link } from "../../../fittings/link";
import { PageFrame } from "../../../fittings/page-frame";
import { words } from "../../../language/language";
import { type FeatureFields, NO_MEMORY_CHART } from "../../feature-entry";
import { FeatureForm } from "../../feature-form";
import { formWords } from "../../form-words";
import { fieldsOfPart } from "../../part-entry";

export async function generateMetadata() {
  return { title: (await words()).plan.enterFeature };
}

/** Subgroups of five: common practice, no source. The rules are those a file's new features get. */
const AT_FIRST: FeatureFields = {
  name: "",
  kind: "size",
  nominal: "",
  lower: "",
  upper: "",
  target: "",
  naturalBound: "",
  unit: "mm",
  resolution: "0.001",
  keyCharacteristic: false,
  indexAsked: "",
  subgroupSize: "5",
  chart: "xbar-r",
  countedOn: "",
  rules: [...USUAL_RULES],
  ...NO_MEMORY_CHART,
  length: "",
  expansion: "",
  temperatureUncertainty: "",
  expansionUncertainty: "",
  reduced: false,
  reason: "",
};

/** Enters a feature of a part by hand. */
export default async function NewFeaturePage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  await requirePage("/plan/features/new");
  const { part: wanted } = await searchParams;
  const part = (await listParts(await database())).find(({ id }) => String(id) === wanted);
  if (!part) notFound();
  const { plan: said, charts } = await words();
  return (
    <PageFrame
      title={said.enterFeature}
      above={
        <>
          <Link href="/plan">{said.title}</Link> ·{" "}
          <Link href={`/plan?part=${part.id}#features`}>
            {partName(part)} {part.name}
          </Link>
        </>
      }
      purpose={said.feature.newPurpose}
    >
      <FeatureForm
        partId={part.id}
        fields={AT_FIRST}
        partExpansion={fieldsOfPart(part).expansion}
        words={formWords(said, charts)}
      />
    </PageFrame>
  );
}
