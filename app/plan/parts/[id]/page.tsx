import { notFound } from "next/navigation";
import { listParts, type PartRow } from "../../../../db/queries/features";
import { counted } from "../../../../lib/format/numbers";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { LinkButton } from "../../../fittings/controls";
import { Facts } from "../../../fittings/facts";
import { Link } from "../../../fittings/link";
import { PageFrame } from "../../../fittings/page-frame";
import { fieldsOfPart } from "../../part-entry";
import { PartForm } from "../../part-form";

export const metadata = { title: "Part in the control plan" };

/** One part of the control plan: engineers change it here, others read it. */
export default async function PlanPartPage({ params }: { params: Promise<{ id: string }> }) {
  const person = await requirePage("/plan/parts/[id]");
  const { id } = await params;
  const part = (await listParts(await database())).find((each) => String(each.id) === id);
  if (!part) notFound();
  const mayChange = mayRun(person, "savePart");
  return (
    <PageFrame
      title={part.name === "" ? part.number : `${part.number} ${part.name}`}
      above={<Link href="/plan">Control plan</Link>}
      purpose={`A part with ${counted(part.features, "feature")} in the control plan.`}
      actions={
        <>
          <LinkButton href={`/plan?part=${part.id}#features`}>Its features</LinkButton>
          {mayChange ? (
            <LinkButton href={`/plan/features/new?part=${part.id}`}>Enter a feature</LinkButton>
          ) : null}
        </>
      }
    >
      {mayChange ? <PartForm id={part.id} fields={fieldsOfPart(part)} /> : <PartFacts part={part} />}
    </PageFrame>
  );
}

function PartFacts({ part }: { part: PartRow }) {
  const { expansion } = fieldsOfPart(part);
  const facts: [string, string][] = [
    ["Number", part.number],
    ["Revision", part.revision || "not given"],
    ["Line", part.line || "not given"],
    ["Material", part.material || "not given"],
    ["Expansion coefficient", expansion === "" ? "not given" : `${expansion} · 10⁻⁶ / K`],
  ];
  return (
    <Facts>
      {facts.map(([term, words]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </Facts>
  );
}
