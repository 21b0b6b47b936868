import { type FeatureRow, listFeatures, listParts, type PartRow } from "../../../db/queries/features";
import {
  defaultPlan,
  type PlanVersion,
  planInForce,
  planVersions,
  type ReactionPlan,
  writtenPlans,
} from "../../../db/queries/reaction-plans";
import { partName } from "../../../lib/format/names";
import { pageAsked, paged, TABLE_ROWS } from "../../../lib/format/paged";
import type { Words } from "../../../lib/words/words";
import { mayRun, requirePage } from "../../access";
import { database } from "../../database";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { PageTurner } from "../../fittings/page-turner";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { ReactionForm } from "./plan-form";
import styles from "./reactions.module.css";

export async function generateMetadata() {
  return { title: (await words()).reactionPlans.title };
}

type Owner = { kind: "feature"; feature: FeatureRow } | { kind: "part"; part: PartRow };

/** What people do on a signal: of one feature, of a part, or the usual steps for a kind of feature. */
export default async function ReactionsPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const person = await requirePage("/plan/reactions");
  const asked = await searchParams;
  const db = await database();
  const features = await listFeatures(db);
  const parts = await listParts(db);
  const owner = ownerAsked(asked, { features, parts });
  const { byFeature, byPart } = await writtenPlans(db);
  const { zone } = await plant();
  const { board, reactionPlans: said, plan, reactions } = await words();
  const shown = paged(features, { page: pageAsked(asked.page), size: TABLE_ROWS });

  return (
    <PageFrame
      term="reaction-plan"
      title={owner ? said.of(ownerName(owner)) : said.title}
      above={
        <>
          <Link href="/plan">{plan.title}</Link>
          {owner ? (
            <>
              , <Link href="/plan/reactions">{said.title}</Link>
            </>
          ) : null}
        </>
      }
      purpose={said.purpose}
    >
      {owner ? (
        <OnePlan
          owner={owner}
          inForce={await inForceFor(owner, features, reactions)}
          said={said}
          versions={
            await planVersions(
              db,
              owner.kind === "feature" ? { featureId: owner.feature.id } : { partId: owner.part.id },
            )
          }
          mayWrite={mayRun(person, "saveReactions")}
          zone={zone}
        />
      ) : features.length === 0 ? (
        <Note kind="empty" title={said.none}>
          {said.noneWhy}
        </Note>
      ) : (
        <>
          {parts
            .filter(({ id }) => shown.rows.some(({ partId }) => partId === id))
            .map((part) => (
              <Section
                key={part.id}
                title={`${partName(part)} ${part.name}`}
                purpose={
                  <Link href={`/plan/reactions?part=${part.id}`}>
                    {byPart.has(part.id) ? said.ofPart(byPart.get(part.id)?.version ?? 0) : said.noneOfPart}
                  </Link>
                }
              >
                <Table
                  caption={said.caption(partName(part))}
                  isCaptionShown={false}
                  rows={shown.rows.filter(({ partId }) => partId === part.id)}
                  rowKey={({ id }) => id}
                  columns={[
                    {
                      key: "feature",
                      head: said.heads.feature,
                      cell: ({ id, name }) => <Link href={`/plan/reactions?feature=${id}`}>{name}</Link>,
                    },
                    {
                      key: "plan",
                      head: said.heads.plan,
                      cell: (feature) =>
                        planWords(
                          byFeature.get(feature.id) ?? byPart.get(part.id) ?? defaultPlan(feature.kind),
                          said,
                        ),
                    },
                    {
                      key: "steps",
                      head: said.heads.steps,
                      figures: true,
                      cell: (feature) =>
                        (byFeature.get(feature.id) ?? byPart.get(part.id) ?? defaultPlan(feature.kind)).steps
                          .length,
                    },
                  ]}
                />
              </Section>
            ))}
          <PageTurner
            label={board.turning.of(said.title)}
            shown={shown}
            toPage={(to) => `/plan/reactions?page=${to}`}
          />
        </>
      )}
    </PageFrame>
  );
}

function OnePlan({
  owner,
  inForce,
  versions,
  mayWrite,
  zone,
  said,
}: {
  owner: Owner;
  inForce: ReactionPlan;
  versions: readonly PlanVersion[];
  mayWrite: boolean;
  zone: string;
  said: Words["reactionPlans"];
}) {
  const isOwn = inForce.of === owner.kind;
  return (
    <>
      <p>
        {said.inForce(planWords(inForce, said))}
        {isOwn ? "" : said.becomesOwn}
      </p>
      {mayWrite ? (
        <ReactionForm
          owner={{ name: owner.kind, id: owner.kind === "feature" ? owner.feature.id : owner.part.id }}
          before={versions[0]?.version ?? 0}
          stored={{ steps: inForce.steps.join("\n"), verify: String(inForce.verifySubgroups), reason: "" }}
          isOwn={isOwn}
          words={said.form}
        />
      ) : (
        <>
          <StepList steps={inForce.steps} />
          <Note kind="remark">{said.mayNot}</Note>
        </>
      )}
      {versions.length > 0 ? (
        <Section title={said.versions} id="versions">
          {versions.map(({ version, steps, verifySubgroups, reason, writtenAt, by }) => (
            <details key={version} className={styles.version}>
              <summary>
                <Filled
                  text={reason ? said.withReason(version) : said.version(version)}
                  holes={{
                    by: by ?? said.somebody,
                    when: <When at={writtenAt} zone={zone} as="short" />,
                    reason,
                  }}
                />
              </summary>
              {steps.length === 0 ? <p>{said.takenBack}</p> : <StepList steps={steps} />}
              <p>{said.verifiedBy(verifySubgroups)}</p>
            </details>
          ))}
        </Section>
      ) : null}
    </>
  );
}

function StepList({ steps }: { steps: readonly string[] }) {
  return (
    <ol className={styles.steps}>
      {steps.map((step) => (
        <li key={step}>{step}</li>
      ))}
    </ol>
  );
}

function planWords({ of, version }: ReactionPlan, { plans }: Words["reactionPlans"]): string {
  return of === "default" ? plans.default : plans[of](version);
}

/** The usual plan comes in the language of the page. */
async function inForceFor(
  owner: Owner,
  features: readonly FeatureRow[],
  reactions: Words["reactions"],
): Promise<ReactionPlan> {
  const usual = (kind: FeatureRow["kind"]) => ({ ...defaultPlan(kind), steps: reactions[kind] });
  if (owner.kind === "feature") {
    const found = await planInForce(await database(), owner.feature);
    return found.of === "default" ? usual(owner.feature.kind) : found;
  }
  const own = (await writtenPlans(await database())).byPart.get(owner.part.id);
  // A part begins with the usual plan of most of its features.
  const kinds = features.filter(({ partId }) => partId === owner.part.id).map(({ kind }) => kind);
  const count = (kind: string) => kinds.filter((each) => each === kind).length;
  const [most = "other"] = [...new Set(kinds)].sort((a, b) => count(b) - count(a));
  return own ?? usual(most);
}

function ownerName(owner: Owner): string {
  return owner.kind === "feature"
    ? `${owner.feature.name}, ${partName(owner.feature.part)}`
    : `${partName(owner.part)} ${owner.part.name}`;
}

function ownerAsked(
  asked: Record<string, string | string[] | undefined>,
  { features, parts }: { features: readonly FeatureRow[]; parts: readonly PartRow[] },
): Owner | null {
  const feature = features.find(({ id }) => String(id) === asked.feature);
  if (feature) return { kind: "feature", feature };
  const part = parts.find(({ id }) => String(id) === asked.part);
  return part ? { kind: "part", part } : null;
}
