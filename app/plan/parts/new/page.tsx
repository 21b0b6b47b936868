import { requirePage } from "../../../access";
import { Link } from "../../../fittings/link";
import { PageFrame } from "../../../fittings/page-frame";
import { PartForm } from "../../part-form";

export const metadata = { title: "Enter a part" };

/** Enters a part by hand; its first feature comes next. */
export default async function NewPartPage() {
  await requirePage("/plan/parts/new");
  return (
    <PageFrame
      title="Enter a part"
      above={<Link href="/plan">Control plan</Link>}
      purpose="Under the number it has in measurement files. Its features come next."
    >
      <PartForm
        fields={{ number: "", revision: "", name: "", line: "", material: "", expansion: "", reason: "" }}
      />
    </PageFrame>
  );
}
