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
import { counted } from "../../../lib/format/numbers";
import { mayRun, requirePage } from "../../access";
import { database } from "../../database";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import { ReactionForm } from "./plan-form";
import styles from "./reactions.module.css";

export const metadata = { title: "Reaction plans" };

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

  return (
    <PageFrame
      term="reaction-plan"
      title={owner ? `Reaction plan: ${nameOf(owner)}` : "Reaction plans"}
      above={
        <>
          <Link href="/plan">Control plan</Link>
          {owner ? (
            <>
              , <Link href="/plan/reactions">Reaction plans</Link>
            </>
          ) : null}
        </>
      }
      purpose="What a person at the line does on a signal, step by step. An alarm keeps the version under which it was raised."
    >
      {owner ? (
        <OnePlan
          owner={owner}
          inForce={await inForceFor(owner, features)}
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
        <Note kind="empty" title="No features yet">
          Once the control plan has features, each has a plan here: the usual one of its kind until somebody
          writes another.
        </Note>
      ) : (
        parts
          .filter(({ id }) => features.some(({ partId }) => partId === id))
          .map((part) => (
            <Section
              key={part.id}
              title={`${partName(part)} ${part.name}`}
              purpose={
                <Link href={`/plan/reactions?part=${part.id}`}>
                  {byPart.has(part.id)
                    ? `The part's plan, version ${byPart.get(part.id)?.version}`
                    : "No plan of the part: each feature has the usual one of its kind"}
                </Link>
              }
            >
              <Table
                caption={`Reaction plans of ${partName(part)}`}
                isCaptionShown={false}
                rows={features.filter(({ partId }) => partId === part.id)}
                rowKey={({ id }) => id}
                columns={[
                  {
                    key: "feature",
                    head: "Feature",
                    cell: ({ id, name }) => <Link href={`/plan/reactions?feature=${id}`}>{name}</Link>,
                  },
                  {
                    key: "plan",
                    head: "Plan",
                    cell: (feature) =>
                      planWords(
                        byFeature.get(feature.id) ?? byPart.get(part.id) ?? defaultPlan(feature.kind),
                      ),
                  },
                  {
                    key: "steps",
                    head: "Steps",
                    figures: true,
                    cell: (feature) =>
                      (byFeature.get(feature.id) ?? byPart.get(part.id) ?? defaultPlan(feature.kind)).steps
                        .length,
                  },
                ]}
              />
            </Section>
          ))
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
}: {
  owner: Owner;
  inForce: ReactionPlan;
  versions: readonly PlanVersion[];
  mayWrite: boolean;
  zone: string;
}) {
  const isOwn = inForce.of === owner.kind;
  return (
    <>
      <p>
        In force: {planWords(inForce)}.
        {isOwn ? "" : " What you save here becomes a plan of its own and takes its place."}
      </p>
      {mayWrite ? (
        <ReactionForm
          owner={{ name: owner.kind, id: owner.kind === "feature" ? owner.feature.id : owner.part.id }}
          before={versions[0]?.version ?? 0}
          stored={{ steps: inForce.steps.join("\n"), verify: String(inForce.verifySubgroups), reason: "" }}
          isOwn={isOwn}
        />
      ) : (
        <>
          <StepList steps={inForce.steps} />
          <Note kind="remark">An engineer can change it.</Note>
        </>
      )}
      {versions.length > 0 ? (
        <Section title="Versions" id="versions">
          {versions.map(({ version, steps, verifySubgroups, reason, writtenAt, by }) => (
            <details key={version} className={styles.version}>
              <summary>
                Version {version}, {by ?? "somebody"}, <When at={writtenAt} zone={zone} as="short" />
                {reason ? `: ${reason}` : ""}
              </summary>
              {steps.length === 0 ? <p>The plan was taken back.</p> : <StepList steps={steps} />}
              <p>Verified by {counted(verifySubgroups, "good subgroup")} in a row.</p>
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

function planWords({ of, version }: ReactionPlan): string {
  if (of === "default") return "the usual plan of its kind";
  return `the ${of}'s own plan, version ${version}`;
}

async function inForceFor(owner: Owner, features: readonly FeatureRow[]): Promise<ReactionPlan> {
  if (owner.kind === "feature") return planInForce(await database(), owner.feature);
  const own = (await writtenPlans(await database())).byPart.get(owner.part.id);
  // A part begins with the usual plan of most of its features.
  const kinds = features.filter(({ partId }) => partId === owner.part.id).map(({ kind }) => kind);
  const count = (kind: string) => kinds.filter((each) => each === kind).length;
  const [most = "other"] = [...new Set(kinds)].sort((a, b) => count(b) - count(a));
  return own ?? defaultPlan(most);
}

function nameOf(owner: Owner): string {
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
