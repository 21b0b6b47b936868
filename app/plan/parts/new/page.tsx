import { requirePage } from "../../../access";
import { Link } from "../../../fittings/link";
import { PageFrame } from "../../../fittings/page-frame";
import { words } from "../../../language/language";
import { PartForm } from "../../part-form";

export async function generateMetadata() {
  return { title: (await words()).plan.enterPart };
}

/** Enters a part by hand; its first feature comes next. */
export default async function NewPartPage() {
  await requirePage("/plan/parts/new");
  const { plan: said } = await words();
  return (
    <PageFrame
      title={said.enterPart}
      above={<Link href="/plan">{said.title}</Link>}
      purpose={said.partPage.newPurpose}
    >
      <PartForm
        fields={{ number: "", revision: "", name: "", line: "", material: "", expansion: "", reason: "" }}
        words={said.partForm}
      />
    </PageFrame>
  );
}
