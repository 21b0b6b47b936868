import { notFound } from "next/navigation";
import { listParts, type PartRow } from "../../../../db/queries/features";
import type { Words } from "../../../../lib/words/words";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { LinkButton } from "../../../fittings/controls";
import { Facts } from "../../../fittings/facts";
import { Link } from "../../../fittings/link";
import { PageFrame } from "../../../fittings/page-frame";
import { words } from "../../../language/language";
import { fieldsOfPart } from "../../part-entry";
import { PartForm } from "../../part-form";

export async function generateMetadata() {
  return { title: (await words()).plan.partPage.tab };
}

/** One part of the control plan: engineers change it here, others read it. */
export default async function PlanPartPage({ params }: { params: Promise<{ id: string }> }) {
  const person = await requirePage("/plan/parts/[id]");
  const { id } = await params;
  const part = (await listParts(await database())).find((each) => String(each.id) === id);
  if (!part) notFound();
  const { plan: said } = await words();
  const mayChange = mayRun(person, "savePart");
  return (
    <PageFrame
      title={part.name === "" ? part.number : `${part.number} ${part.name}`}
      above={<Link href="/plan">{said.title}</Link>}
      purpose={said.partPage.purpose(part.features)}
      actions={
        <>
          <LinkButton href={`/plan?part=${part.id}#features`}>{said.partPage.itsFeatures}</LinkButton>
          {mayChange ? (
            <LinkButton href={`/plan/features/new?part=${part.id}`}>{said.enterFeature}</LinkButton>
          ) : null}
        </>
      }
    >
      {mayChange ? (
        <PartForm id={part.id} fields={fieldsOfPart(part)} words={said.partForm} />
      ) : (
        <PartFacts part={part} said={said} />
      )}
    </PageFrame>
  );
}

function PartFacts({ part, said }: { part: PartRow; said: Words["plan"] }) {
  const { facts: terms } = said.partPage;
  const { expansion } = fieldsOfPart(part);
  const facts: [string, string][] = [
    [terms.number, part.number],
    [terms.revision, part.revision || said.notGiven],
    [terms.line, part.line || said.notGiven],
    [terms.material, part.material || said.notGiven],
    [terms.expansion, expansion === "" ? said.notGiven : `${expansion} · 10⁻⁶ / K`],
  ];
  return (
    <Facts>
      {facts.map(([term, fact]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{fact}</dd>
        </div>
      ))}
    </Facts>
  );
}
