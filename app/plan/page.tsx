import { listFeatures, listParts } from "../../db/queries/features";
import { partName } from "../../lib/format/names";
import { mayOpen, requirePage } from "../access";
import { database } from "../database";
import { Button, LinkButton } from "../fittings/controls";
import { SelectField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { FeaturePlanTable } from "./feature-plan-table";
import { PartTable } from "./part-table";
import styles from "./plan.module.css";

export const metadata = { title: "Control plan" };

type SearchParams = Record<string, string | string[] | undefined>;

/** The control plan: parts, their features, and how each is charted and judged. */
export default async function PlanPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/plan");
  const { part: wanted } = await searchParams;
  const db = await database();
  const parts = await listParts(db);
  const chosen = parts.find(({ id }) => String(id) === wanted) ?? null;
  const features = await listFeatures(db, chosen ? { partId: chosen.id } : {});
  const mayChange = mayOpen(person, "/plan/parts/new");

  return (
    <PageFrame
      term="control-plan"
      title="Control plan"
      purpose={
        mayChange
          ? "What the drawings ask of each feature, and how it is charted and judged. Every change is kept in the record."
          : "What the drawings ask of each feature, and how it is charted and judged. An engineer can change it."
      }
      actions={
        <>
          {parts.length > 0 ? <LinkButton href="/plan/budget">Alarm budget</LinkButton> : null}
          {parts.length > 0 ? <LinkButton href="/plan/reactions">Reaction plans</LinkButton> : null}
          {mayChange ? <LinkButton href="/plan/parts/new">Enter a part</LinkButton> : null}
        </>
      }
    >
      {parts.length === 0 ? <EmptyPlan mayChange={mayChange} /> : null}
      {parts.length > 0 ? (
        <>
          <Section title="Parts">
            <PartTable parts={parts} />
          </Section>
          <Section
            title={chosen ? `Features of ${partName(chosen)}` : "Features"}
            id="features"
            actions={
              mayChange && chosen ? (
                <LinkButton href={`/plan/features/new?part=${chosen.id}`}>Enter a feature</LinkButton>
              ) : null
            }
          >
            <form action="/plan#features" className={styles.filter}>
              <SelectField
                label="Part"
                name="part"
                choices={[
                  { value: "", label: "all parts" },
                  ...parts.map((part) => ({
                    value: String(part.id),
                    label: `${partName(part)} ${part.name}`,
                  })),
                ]}
                defaultValue={chosen ? String(chosen.id) : ""}
                key={chosen?.id ?? 0}
              />
              <Button type="submit">Show</Button>
            </form>
            <FeaturePlanTable features={features} isOnePart={chosen !== null} />
          </Section>
        </>
      ) : null}
    </PageFrame>
  );
}

function EmptyPlan({ mayChange }: { mayChange: boolean }) {
  return (
    <Note
      kind="empty"
      title="No parts yet"
      actions={
        mayChange ? (
          <>
            <LinkButton href="/plan/parts/new" kind="main">
              Enter a part
            </LinkButton>
            <LinkButton href="/intake">Take in a measurement file</LinkButton>
          </>
        ) : null
      }
    >
      {mayChange
        ? "Enter a part and its features here, or take in a measurement file: what it names is entered with it."
        : "An engineer enters parts and features here, or takes in a measurement file that brings them along."}
    </Note>
  );
}
