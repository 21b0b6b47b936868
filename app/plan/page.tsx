import { listFeatures, listParts } from "../../db/queries/features";
import { partName } from "../../lib/format/names";
import { pageAsked, paged, TABLE_ROWS } from "../../lib/format/paged";
import type { Words } from "../../lib/words/words";
import { mayOpen, requirePage } from "../access";
import { database } from "../database";
import { Button, LinkButton } from "../fittings/controls";
import { SelectField } from "../fittings/fields";
import { Note } from "../fittings/note";
import { PageFrame, Section } from "../fittings/page-frame";
import { PageTurner } from "../fittings/page-turner";
import { words } from "../language/language";
import { FeaturePlanTable } from "./feature-plan-table";
import { PartTable } from "./part-table";
import styles from "./plan.module.css";

export async function generateMetadata() {
  return { title: (await words()).plan.title };
}

type SearchParams = Record<string, string | string[] | undefined>;

/** The control plan: parts, their features, and how each is charted and judged. */
export default async function PlanPage({ searchParams }: { searchParams: Promise<SearchParams> }) {
  const person = await requirePage("/plan");
  const { part: wanted, page } = await searchParams;
  const { plan: said, board } = await words();
  const db = await database();
  const parts = await listParts(db);
  const chosen = parts.find(({ id }) => String(id) === wanted) ?? null;
  const features = await listFeatures(db, chosen ? { partId: chosen.id } : {});
  const shown = paged(features, { page: pageAsked(page), size: TABLE_ROWS });
  const mayChange = mayOpen(person, "/plan/parts/new");

  return (
    <PageFrame
      term="control-plan"
      title={said.title}
      purpose={`${said.purpose} ${mayChange ? said.mayChange : said.mayNot}`}
      actions={
        <>
          {parts.length > 0 ? <LinkButton href="/plan/budget">{said.toBudget}</LinkButton> : null}
          {parts.length > 0 ? <LinkButton href="/plan/reactions">{said.toReactions}</LinkButton> : null}
          {mayChange ? <LinkButton href="/plan/parts/new">{said.enterPart}</LinkButton> : null}
        </>
      }
    >
      {parts.length === 0 ? <EmptyPlan mayChange={mayChange} said={said} /> : null}
      {parts.length > 0 ? (
        <>
          <Section title={said.parts}>
            <PartTable parts={parts} />
          </Section>
          <Section
            title={chosen ? said.featuresOf(partName(chosen)) : said.features}
            id="features"
            actions={
              mayChange && chosen ? (
                <LinkButton href={`/plan/features/new?part=${chosen.id}`}>{said.enterFeature}</LinkButton>
              ) : null
            }
          >
            <form action="/plan#features" className={styles.filter}>
              <SelectField
                label={said.part}
                name="part"
                choices={[
                  { value: "", label: said.allParts },
                  ...parts.map((part) => ({
                    value: String(part.id),
                    label: `${partName(part)} ${part.name}`,
                  })),
                ]}
                defaultValue={chosen ? String(chosen.id) : ""}
                key={chosen?.id ?? 0}
              />
              <Button type="submit">{said.show}</Button>
            </form>
            <FeaturePlanTable features={shown.rows} isOnePart={chosen !== null} />
            <PageTurner
              label={board.turning.of(said.features)}
              shown={shown}
              toPage={(to) => `/plan?${chosen ? `part=${chosen.id}&` : ""}page=${to}#features`}
            />
          </Section>
        </>
      ) : null}
    </PageFrame>
  );
}

function EmptyPlan({ mayChange, said }: { mayChange: boolean; said: Words["plan"] }) {
  return (
    <Note
      kind="empty"
      title={said.empty.title}
      actions={
        mayChange ? (
          <>
            <LinkButton href="/plan/parts/new" kind="main">
              {said.enterPart}
            </LinkButton>
            <LinkButton href="/intake">{said.empty.takeIn}</LinkButton>
          </>
        ) : null
      }
    >
      {mayChange ? said.empty.mayChange : said.empty.mayNot}
    </Note>
  );
}
