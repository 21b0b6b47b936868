import { Suspense, use } from "react";
import { type AlarmBudget, alarmBudget, watchOf } from "../../../lib/alarm-budget/alarm-budget";
import { OPERATOR_RATES } from "../../../lib/alarm-budget/operator-rates";
import { type PlanGroup, planGroups } from "../../../lib/alarm-budget/plan-groups";
import { SHIFTS_SHOWN, tradeOff } from "../../../lib/alarm-budget/trade-off";
import { chartWords } from "../../../lib/format/names";
import { fixed, percent } from "../../../lib/format/numbers";
import { RULES, ruleBySlug } from "../../../lib/rules/known-rules";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import type { Words } from "../../../lib/words/words";
import { requirePage } from "../../access";
import { Button, LinkButton } from "../../fittings/controls";
import { SelectField } from "../../fittings/fields";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { LoadingRows } from "../../fittings/loading";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { PAGE_SIMULATION } from "../cost-answer";
import styles from "./budget.module.css";
import { ContributorTable } from "./contributor-table";
import { GroupFeatures } from "./group-features";
import { HowBudgetComputed } from "./how-computed";
import { DAYS_LOOKED_BACK, type MeasuredFeature, type PlantRate, plantRate } from "./plant-budget";
import { TradeOffTable } from "./trade-off-table";

export async function generateMetadata() {
  return { title: (await words()).budget.title };
}

const BIGGEST_SHOWN = 10;

/** What the plant's rule sets cost in false alarms, and what taking rules off or putting them on would change. */
export default async function AlarmBudgetPage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  await requirePage("/plan/budget");
  const { plan: wanted } = await searchParams;
  const { budget: said, plan } = await words();
  return (
    <PageFrame
      term="alarm-budget"
      title={said.title}
      above={<Link href="/plan">{plan.title}</Link>}
      purpose={said.purpose}
    >
      <Suspense fallback={<LoadingRows label={said.adding} rows={12} />}>
        <Budget wanted={wanted} />
      </Suspense>
    </PageFrame>
  );
}

async function Budget({ wanted }: { wanted: string | string[] | undefined }) {
  const rate = await plantRate();
  if (rate.features.length === 0) return <NoFeatures />;
  if (rate.features.every(({ subgroupsPerShift }) => subgroupsPerShift === 0)) return <Idle rate={rate} />;

  const { budget: said } = await words();
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
    words: said.load,
  });
  const judged = planGroups(rate.features).filter(({ rules }) => rules.length > 0);
  const groups = judged.toSorted((a, b) => b.features.length - a.features.length);
  const chosen = groups.find(({ key }) => key === wanted) ?? groups[0];
  return (
    <>
      <Plant rate={rate} budget={budget} />
      <Section title={said.from} purpose={said.fromPurpose(Math.min(BIGGEST_SHOWN, rate.features.length))}>
        <ContributorTable rate={rate} budget={budget} count={BIGGEST_SHOWN} />
      </Section>
      {chosen ? (
        <Section title={said.offAndOn} id="rules" purpose={said.offAndOnPurpose}>
          <GroupChoice groups={groups} chosen={chosen} />
          <Suspense key={chosen.key} fallback={<LoadingRows label={said.workingOut} rows={9} />}>
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
  const { budget: said } = use(words());
  return (
    <section className={styles.plant} aria-label={said.plant}>
      <p className={styles.total}>
        <span className={styles.figure}>{fixed(total, 2)}</span> {said.perShift}
      </p>
      <div className={styles.words}>
        <p>
          {load.sentence} {said.usedUp(percent(load.shareOfAcceptable))}
        </p>
        <p className={styles.soft}>
          {said.parts(fixed(location, 2), fixed(spread, 2), memory > 0 ? fixed(memory, 2) : null)}{" "}
          {said.operator(OPERATOR_RATES.acceptable.perHour, OPERATOR_RATES.mostManageable.perHour)}
        </p>
        <p className={styles.soft}>
          <Filled
            text={worked.count === 0 ? said.rateAllHours : said.rate(worked.count)}
            holes={{
              from: <When at={from} zone={zone} as="day" />,
              to: <When at={to} zone={zone} as="day" />,
            }}
          />
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
  const { budget: said, charts, performance } = use(words());
  return (
    <form action="/plan/budget#rules" className={styles.choice}>
      <SelectField
        label={said.plan}
        name="plan"
        choices={groups.map(({ key, chart, subgroupSize, rules, features }) => ({
          value: key,
          label: said.ofPlan(
            chartWords({ chart, subgroupSize }, charts),
            ruleWords(rules, performance.sets),
            features.length,
          ),
        }))}
        defaultValue={chosen.key}
        key={chosen.key}
      />
      <Button type="submit">{said.show}</Button>
    </form>
  );
}

/** Sets without a name are told apart by their rules' slugs. */
function ruleWords(rules: readonly string[], sets: Words["performance"]["sets"]): string {
  const name = ruleSetName(rules, sets);
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
  const { budget: said } = use(words());
  return (
    <Note kind="empty" title={said.none} actions={<LinkButton href="/plan">{said.toPlan}</LinkButton>}>
      {said.noneWhy}
    </Note>
  );
}

function Idle({ rate }: { rate: PlantRate }) {
  const { budget: said } = use(words());
  return (
    <Note kind="not-yet" title={said.idle} actions={<LinkButton href="/intake">{said.toIntake}</LinkButton>}>
      <Filled
        text={said.idleWhy(DAYS_LOOKED_BACK)}
        holes={{ when: <When at={rate.to} zone={rate.zone} /> }}
      />
    </Note>
  );
}
