import { notFound } from "next/navigation";
import { type FeatureRow, featureById, listParts } from "../../../../db/queries/features";
import { type RuleCost, ruleCost } from "../../../../lib/alarm-budget/rule-cost";
import { chartWords, partName } from "../../../../lib/format/names";
import { measured, toleranceWords, unitSign, withUnit } from "../../../../lib/format/numbers";
import { askedWords, indexAsked } from "../../../../lib/plan/index-asked";
import { memoryChartWords } from "../../../../lib/plan/memory-chart";
import { ruleBySlug } from "../../../../lib/rules/known-rules";
import { memoryRunLengthWords } from "../../../../lib/run-length/memory-chart";
import type { Words } from "../../../../lib/words/words";
import { mayRun, requirePage } from "../../../access";
import { database } from "../../../database";
import { ChartTabs } from "../../../features/[id]/chart-tabs";
import { LinkButton } from "../../../fittings/controls";
import { Facts } from "../../../fittings/facts";
import { Link } from "../../../fittings/link";
import { PageFrame } from "../../../fittings/page-frame";
import { RuleList } from "../../../fittings/rule-words";
import { words } from "../../../language/language";
import { PAGE_SIMULATION } from "../../cost-answer";
import { fieldsOfFeature } from "../../feature-entry";
import { FeatureForm } from "../../feature-form";
import { formWords } from "../../form-words";
import { fieldsOfPart } from "../../part-entry";
import styles from "../../plan.module.css";
import { RuleCostTable } from "../../rule-cost-table";

export async function generateMetadata() {
  return { title: (await words()).plan.feature.tab };
}

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
  const all = await words();
  const { plan: said } = all;

  return (
    <PageFrame
      title={feature.name}
      above={
        <>
          <Link href="/plan">{said.title}</Link> ·{" "}
          <Link href={`/plan?part=${feature.partId}#features`}>
            {partName(feature.part)} {feature.part.name}
          </Link>
        </>
      }
      purpose={said.feature.purpose}
      actions={
        <>
          <LinkButton href={`/plan/reactions?feature=${feature.id}`}>{said.feature.toReactions}</LinkButton>
          <LinkButton href={`/features/${feature.id}`}>{said.feature.toChart}</LinkButton>
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
          watchWords={
            feature.plan.alsoWatch ? memoryRunLengthWords(feature.plan.alsoWatch, all.working.runLength) : ""
          }
          words={formWords(said, all.charts)}
        />
      ) : (
        <FeatureFacts feature={feature} cost={cost} words={all} />
      )}
    </PageFrame>
  );
}

/** Null where no rule is in force, and for counts, which have no normal distribution to reckon with. */
function costInForce({ plan: { chart, subgroupSize, rules, counts } }: FeatureRow): RuleCost | null {
  if (rules.length === 0 || counts) return null;
  return ruleCost({ chart, subgroupSize, rules: rules.map(ruleBySlug), simulation: PAGE_SIMULATION });
}

function FeatureFacts({
  feature,
  cost,
  words: { plan: said, charts, figures },
}: {
  feature: FeatureRow;
  cost: RuleCost | null;
  words: Words;
}) {
  const { facts: terms } = said.feature;
  const kind = charts.features[feature.kind];
  const { plan, unit, resolution } = feature;
  const value = (figure: number | null) =>
    figure === null ? said.notGiven : withUnit(measured(figure, { resolution }), unit);
  const facts: [string, string][] = [
    [terms.kind, feature.keyCharacteristic ? said.feature.key(kind) : kind],
    [terms.tolerance, toleranceWords(plan.tolerance, { resolution, unit }, figures)],
    [terms.nominal, value(feature.nominal)],
    [terms.target, value(plan.target)],
    [terms.naturalBound, value(plan.naturalBound)],
    [terms.indexAsked, said.feature.asked(askedWords(indexAsked(feature)), feature.indexAsked !== null)],
    [terms.resolution, resolution === null ? said.notGiven : `${resolution} ${unitSign(unit)}`],
    [terms.chart, chartWords(plan, charts)],
    [terms.alsoWatched, plan.alsoWatch ? memoryChartWords(plan.alsoWatch, charts) : said.feature.nothingElse],
    [terms.temperature, plan.reduction ? said.feature.reduced : said.feature.measured],
  ];
  return (
    <Facts>
      {facts.map(([term, fact]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{fact}</dd>
        </div>
      ))}
      <div className={styles.wide}>
        <dt>{terms.rules}</dt>
        <dd>
          <RuleList slugs={plan.rules} />
          {cost ? <RuleCostTable lines={[{ name: said.feature.inForce, cost }]} words={said.cost} /> : null}
        </dd>
      </div>
    </Facts>
  );
}
