import { Suspense } from "react";
import { type AlarmBudget, alarmBudget, watchOf } from "../../../lib/alarm-budget/alarm-budget";
import { OPERATOR_RATES } from "../../../lib/alarm-budget/operator-rates";
import { type PlanGroup, planGroups } from "../../../lib/alarm-budget/plan-groups";
import { SHIFTS_SHOWN, tradeOff } from "../../../lib/alarm-budget/trade-off";
import { chartWords } from "../../../lib/format/names";
import { counted, fixed, percent } from "../../../lib/format/numbers";
import { RULES, ruleBySlug } from "../../../lib/rules/known-rules";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import { requirePage } from "../../access";
import { Button, LinkButton } from "../../fittings/controls";
import { SelectField } from "../../fittings/fields";
import { Link } from "../../fittings/link";
import { LoadingRows } from "../../fittings/loading";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { When } from "../../fittings/when";
import { PAGE_SIMULATION } from "../cost-answer";
import styles from "./budget.module.css";
import { ContributorTable } from "./contributor-table";
import { GroupFeatures } from "./group-features";
import { HowBudgetComputed } from "./how-computed";
import { DAYS_LOOKED_BACK, type MeasuredFeature, type PlantRate, plantRate } from "./plant-budget";
import { TradeOffTable } from "./trade-off-table";

export const metadata = { title: "Alarm budget" };

const BIGGEST_SHOWN = 10;

/** What the plant's rule sets cost in false alarms, and what taking rules off or putting them on would change. */
export default async function AlarmBudgetPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  await requirePage("/plan/budget");
  const { plan: wanted } = await searchParams;
  return (
    <PageFrame
      term="alarm-budget"
      title="Alarm budget"
      above={<Link href="/plan">Control plan</Link>}
      purpose="Charts that are watched long enough signal by chance. This is how often, under the rules in force, and what each rule earns for it."
    >
      <Suspense fallback={<LoadingRows label="Adding up what the rules in force cost" rows={12} />}>
        <Budget wanted={wanted} />
      </Suspense>
    </PageFrame>
  );
}

async function Budget({ wanted }: { wanted: string | string[] | undefined }) {
  const rate = await plantRate();
  if (rate.features.length === 0) return <NoFeatures />;
  if (rate.features.every(({ subgroupsPerShift }) => subgroupsPerShift === 0)) return <Idle rate={rate} />;

  await othersServed();
  const budget = alarmBudget({
    features: rate.features.map(({ plan, subgroupsPerShift }) => ({
      chart: plan.chart,
      subgroupSize: plan.subgroupSize,
      rules: plan.rules.map(ruleBySlug),
      subgroupsPerShift,
      ...watchOf(plan),
    })),
    shiftHours: rate.worked.shiftHours,
    simulation: PAGE_SIMULATION,
  });
  const judged = planGroups(rate.features).filter(({ rules }) => rules.length > 0);
  const groups = judged.toSorted((a, b) => b.features.length - a.features.length);
  const chosen = groups.find(({ key }) => key === wanted) ?? groups[0];
  return (
    <>
      <Plant rate={rate} budget={budget} />
      <Section
        title="Where they come from"
        purpose={`The ${counted(Math.min(BIGGEST_SHOWN, rate.features.length), "feature")} that ${rate.features.length === 1 ? "gives" : "give"} the most. What is measured often gives many, whatever its rules.`}
      >
        <ContributorTable rate={rate} budget={budget} count={BIGGEST_SHOWN} />
      </Section>
      {chosen ? (
        <Section
          title="Rules off and on"
          id="rules"
          purpose="One rule taken off or put on, for all features of one plan: false alarms that it saves or costs, and how many subgroups a lasting shift then goes unnoticed."
        >
          <GroupChoice groups={groups} chosen={chosen} />
          <Suspense
            key={chosen.key}
            fallback={<LoadingRows label="Working out what each rule costs" rows={9} />}
          >
            <TradeOff group={chosen} shiftHours={rate.worked.shiftHours} />
          </Suspense>
          <GroupFeatures group={chosen} />
        </Section>
      ) : null}
      <HowBudgetComputed runs={PAGE_SIMULATION.runs} />
    </>
  );
}

function Plant({ rate, budget }: { rate: PlantRate; budget: AlarmBudget }) {
  const { worked, from, to, zone } = rate;
  const { total, location, spread, memory, load } = budget;
  return (
    <section className={styles.plant} aria-label="The whole plant">
      <p className={styles.total}>
        <span className={styles.figure}>{fixed(total, 2)}</span> false alarms per shift
      </p>
      <div className={styles.words}>
        <p>
          {load.sentence} {percent(load.shareOfAcceptable)} of that is used up before anything real has
          happened.
        </p>
        <p className={styles.soft}>
          {fixed(location, 2)} from the charts of means and single readings, {fixed(spread, 2)} from those of
          spread{memory > 0 ? `, ${fixed(memory, 2)} from EWMA and CUSUM charts that also watch` : ""}; a
          false alarm of both charts at once counts once. One operator: on average{" "}
          {OPERATOR_RATES.acceptable.perHour} alarms an hour are {OPERATOR_RATES.acceptable.words},{" "}
          {OPERATOR_RATES.mostManageable.perHour} are {OPERATOR_RATES.mostManageable.words}{" "}
          (ANSI/ISA-18.2-2016, from memory), if one person takes up all alarms of the plant.
        </p>
        <p className={styles.soft}>
          Measuring rate: <When at={from} zone={zone} as="day" /> to <When at={to} zone={zone} as="day" />,{" "}
          {worked.count === 0
            ? "all hours, because nothing was measured within a shift of the settings."
            : `${counted(worked.count, "shift")} in which something was measured.`}
        </p>
      </div>
    </section>
  );
}

function GroupChoice({
  groups,
  chosen,
}: {
  groups: readonly PlanGroup<MeasuredFeature>[];
  chosen: PlanGroup<MeasuredFeature>;
}) {
  return (
    <form action="/plan/budget#rules" className={styles.choice}>
      <SelectField
        label="Plan"
        name="plan"
        choices={groups.map(({ key, chart, subgroupSize, rules, features }) => ({
          value: key,
          label: `${chartWords({ chart, subgroupSize })}, ${ruleWords(rules)}: ${counted(features.length, "feature")}`,
        }))}
        defaultValue={chosen.key}
        key={chosen.key}
      />
      <Button type="submit">Show</Button>
    </form>
  );
}

/** Sets without a name are told apart by their rules' slugs. */
function ruleWords(rules: readonly string[]): string {
  const name = ruleSetName(rules);
  return /^\d/.test(name) ? rules.join(" + ") : name;
}

/**
 * Lets go what is ready, this page's head and other people's answers, before the process reckons: the first
 * time after a start that takes some tenths of a second, afterwards figures are remembered.
 */
function othersServed(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 10));
}

/** The table is worked out after the rest is on its way, for rules without an exact form are simulated. */
async function TradeOff({ group, shiftHours }: { group: PlanGroup<MeasuredFeature>; shiftHours: number }) {
  await othersServed();
  const { chart, subgroupSize, features } = group;
  const rows = tradeOff({
    features: features.map(({ plan, subgroupsPerShift }) => ({
      chart,
      subgroupSize,
      subgroupsPerShift,
      ...watchOf(plan),
    })),
    inForce: group.rules.map(ruleBySlug),
    candidates: RULES,
    shifts: SHIFTS_SHOWN,
    shiftHours,
    simulation: PAGE_SIMULATION,
  });
  return <TradeOffTable rows={rows} group={group} />;
}

function NoFeatures() {
  return (
    <Note
      kind="empty"
      title="No features yet"
      actions={<LinkButton href="/plan">To the control plan</LinkButton>}
    >
      Once the control plan has features and they are measured, this page says how many false alarms a shift
      has to expect.
    </Note>
  );
}

function Idle({ rate }: { rate: PlantRate }) {
  return (
    <Note kind="not-yet" title="No budget yet" actions={<LinkButton href="/intake">To intake</LinkButton>}>
      Nothing was measured in the {DAYS_LOOKED_BACK} days before <When at={rate.to} zone={rate.zone} />, so
      there is no measuring rate to reckon with. The budget appears with the next measurements; nothing needs
      to be repaired. What a rule set costs per 1,000 subgroups stands on each feature's plan page.
    </Note>
  );
}
