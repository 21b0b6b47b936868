import { notFound } from "next/navigation";
import { type FeatureRow, featureById, listParts } from "../../../../db/queries/features";
import { type RuleCost, ruleCost } from "../../../../lib/alarm-budget/rule-cost";
import { chartWords, partName } from "../../../../lib/format/names";
import { measured, toleranceWords, unitSign, withUnit } from "../../../../lib/format/numbers";
import { memoryChartWords } from "../../../../lib/plan/memory-chart";
import { ruleBySlug } from "../../../../lib/rules/known-rules";
import { memoryRunLengthWords } from "../../../../lib/run-length/memory-chart";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { ChartTabs } from "../../../features/[id]/chart-tabs";
import { LinkButton } from "../../../fittings/controls";
import { Facts } from "../../../fittings/facts";
import { Link } from "../../../fittings/link";
import { PageFrame } from "../../../fittings/page-frame";
import { RuleList } from "../../../fittings/rule-words";
import { PAGE_SIMULATION } from "../../cost-answer";
import { fieldsOfFeature } from "../../feature-entry";
import { FeatureForm } from "../../feature-form";
import { fieldsOfPart } from "../../part-entry";
import styles from "../../plan.module.css";
import { RuleCostTable } from "../../rule-cost-table";

export const metadata = { title: "Feature in the control plan" };

/** One feature of the control plan: engineers change it here, others read it. */
export default async function PlanFeaturePage({ params }: { params: Promise<{ id: string }> }) {
  const person = await requirePage("/plan/features/[id]");
  const { id } = await params;
  const db = await database();
  const feature = await featureById(db, Number(id));
  if (!feature) notFound();
  const part = (await listParts(db)).find((each) => each.id === feature.partId);
  const ownExpansion = feature.expansion === part?.expansion ? null : feature.expansion;

  const cost = costInForce(feature);

  return (
    <PageFrame
      title={feature.name}
      above={
        <>
          <Link href="/plan">Control plan</Link> ·{" "}
          <Link href={`/plan?part=${feature.partId}#features`}>
            {partName(feature.part)} {feature.part.name}
          </Link>
        </>
      }
      purpose="What the drawing asks of this feature, and how it is charted and judged."
      actions={
        <>
          <LinkButton href={`/plan/reactions?feature=${feature.id}`}>Reaction plan</LinkButton>
          <LinkButton href={`/features/${feature.id}`}>To its control chart</LinkButton>
        </>
      }
    >
      <ChartTabs
        plan={feature.plan}
        view={null}
        addressOf={({ chart }) => `/features/${feature.id}${chart ? `?chart=${chart}` : ""}`}
      />
      {mayRun(person, "saveFeature") ? (
        <FeatureForm
          featureId={feature.id}
          partId={feature.partId}
          fields={fieldsOfFeature(feature, ownExpansion)}
          partExpansion={part ? fieldsOfPart(part).expansion : ""}
          ruleCost={cost}
          watchWords={feature.plan.alsoWatch ? memoryRunLengthWords(feature.plan.alsoWatch) : ""}
        />
      ) : (
        <FeatureFacts feature={feature} cost={cost} />
      )}
    </PageFrame>
  );
}

/** Null where no rule is in force, and for counts, which have no normal distribution to reckon with. */
function costInForce({ plan: { chart, subgroupSize, rules, counts } }: FeatureRow): RuleCost | null {
  if (rules.length === 0 || counts) return null;
  return ruleCost({ chart, subgroupSize, rules: rules.map(ruleBySlug), simulation: PAGE_SIMULATION });
}

function FeatureFacts({ feature, cost }: { feature: FeatureRow; cost: RuleCost | null }) {
  const { plan, unit, resolution } = feature;
  const value = (figure: number | null) =>
    figure === null ? "not given" : withUnit(measured(figure, { resolution }), unit);
  const facts: [string, string][] = [
    ["Kind", feature.keyCharacteristic ? `${feature.kind}, key characteristic` : feature.kind],
    ["Tolerance", toleranceWords(plan.tolerance, { resolution, unit })],
    ["Nominal", value(feature.nominal)],
    ["Target", value(plan.target)],
    ["Natural bound", value(plan.naturalBound)],
    ["Resolution", resolution === null ? "not given" : `${resolution} ${unitSign(unit)}`],
    ["Chart", chartWords(plan)],
    ["Also watched by", plan.alsoWatch ? memoryChartWords(plan.alsoWatch) : "nothing else"],
    ["Temperature", plan.reduction ? "charted at 20 °C" : "charted as measured"],
  ];
  return (
    <Facts>
      {facts.map(([term, words]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{words}</dd>
        </div>
      ))}
      <div className={styles.wide}>
        <dt>Run rules in force</dt>
        <dd>
          <RuleList slugs={plan.rules} />
          {cost ? <RuleCostTable lines={[{ name: "In force", cost }]} /> : null}
        </dd>
      </div>
    </Facts>
  );
}
