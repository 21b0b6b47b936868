import { OPERATOR_RATES } from "../../../lib/alarm-budget/operator-rates";
import type { AlarmPerformance, Waiting } from "../../../lib/alarms/performance";
import { chartWords, partName } from "../../../lib/format/names";
import { counted, fixed, percent } from "../../../lib/format/numbers";
import { durationWords } from "../../../lib/format/times";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import { requirePage } from "../../access";
import { Button, ControlRow, LinkButton } from "../../fittings/controls";
import { SelectField } from "../../fittings/fields";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateWord } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { plant } from "../../plant";
import { loadPerformance, type ShownPerformance } from "./load-performance";
import styles from "./performance.module.css";

export const metadata = { title: "Alarm performance" };

const DAYS = [14, 28, 91] as const;
const MOST_OPERATORS = 20;

/** How many alarms people had to take up, how long they waited, and where they could be fewer. */
export default async function PerformancePage({
  searchParams,
}: {
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  await requirePage("/alarms/performance");
  const asked = await searchParams;
  const days = DAYS.find((each) => String(each) === asked.days) ?? 28;
  const typed = Number(asked.people);
  const operators = Number.isInteger(typed) && typed >= 1 && typed <= MOST_OPERATORS ? typed : 1;
  const shown = await loadPerformance(days, operators);
  const { zone } = await plant();

  return (
    <PageFrame
      title="Alarm performance"
      above={<Link href="/alarms">Alarms</Link>}
      purpose="Whether people can keep up with the alarms, how long these wait, and which rules or features could give fewer."
      facts={
        <span>
          <When at={shown.from} zone={zone} as="day" /> to <When at={shown.to} zone={zone} as="day" />,{" "}
          {counted(shown.worked.count, "worked shift")}
        </span>
      }
      actions={<LinkButton href="/plan/budget">Alarm budget</LinkButton>}
    >
      <form action="/alarms/performance">
        <ControlRow>
          <SelectField
            label="Looking back"
            name="days"
            defaultValue={String(days)}
            choices={DAYS.map((each) => ({ value: String(each), label: `${each} days` }))}
          />
          <SelectField
            label="People who take alarms up at a time"
            name="people"
            defaultValue={String(operators)}
            choices={Array.from({ length: MOST_OPERATORS }, (_, i) => ({
              value: String(i + 1),
              label: String(i + 1),
            }))}
          />
          <Button type="submit">Show</Button>
        </ControlRow>
      </form>
      {shown.performance === null ? (
        <Note kind="not-yet" title="No figures yet">
          Nothing was measured within a shift of the settings in these {days} days, so there is no running
          time to divide by. Nothing needs to be repaired.
        </Note>
      ) : (
        <>
          <Rates performance={shown.performance} shown={shown} operators={operators} />
          <Frequent performance={shown.performance} shown={shown} />
        </>
      )}
      <Standing shown={shown} zone={zone} />
      <Savings shown={shown} />
    </PageFrame>
  );
}

const LEVELS = {
  acceptable: "That can be kept up with.",
  heavy: "Little room is left: see below where there could be fewer.",
  "too many": "Real ones are lost among so many: see below where there could be fewer, or share them.",
} as const;

function Rates({
  performance,
  shown,
  operators,
}: {
  performance: AlarmPerformance;
  shown: ShownPerformance;
  operators: number;
}) {
  const { raised, perShift, perOperatorHour, level, toAcknowledge, toClose } = performance;
  return (
    <section aria-label="Rates and waiting times" className={styles.rates}>
      <dl className={styles.figures}>
        <Figure term="Alarms raised" value={String(raised)} words={`${fixed(perShift, 1)} a worked shift`} />
        <Figure
          term="Per operator hour"
          value={fixed(perOperatorHour, 2)}
          words={`${operators === 1 ? "one person takes" : `${operators} people take`} them up, ${fixed(shown.worked.hours, 0)} h worked`}
        />
        <Figure term="To acknowledge" {...waitingWords(toAcknowledge)} />
        <Figure term="To close" {...waitingWords(toClose)} />
      </dl>
      <p>
        {LEVELS[level]} ISA-18.2 (from memory) gives {OPERATOR_RATES.acceptable.perHour} an hour for one
        operator as {OPERATOR_RATES.acceptable.words} and {OPERATOR_RATES.mostManageable.perHour} as{" "}
        {OPERATOR_RATES.mostManageable.words}, on average; in a shop where an alarm means a walk to a machine
        it is less.{" "}
        {shown.unanswered === 0
          ? "All were acknowledged."
          : `${shown.unanswered} are not acknowledged yet and not in the waiting times.`}
      </p>
    </section>
  );
}

function Figure({ term, value, words }: { term: string; value: string; words: string }) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>
        <span className={styles.value}>{value}</span> {words}
      </dd>
    </div>
  );
}

function waitingWords({ count, medianMs, ninetyMs }: Waiting): { value: string; words: string } {
  if (medianMs === null || ninetyMs === null) return { value: "–", words: "none yet" };
  return {
    value: durationWords(medianMs),
    words: `median of ${count}; 90 % within ${durationWords(ninetyMs)}`,
  };
}

function Frequent({ performance, shown }: { performance: AlarmPerformance; shown: ShownPerformance }) {
  return (
    <Section
      title="The ten most frequent"
      id="frequent"
      purpose="Expected by chance: what the rules in force give where nothing has moved, from their average run length and the measuring rate. Many more than that are real, or limits that no longer fit."
    >
      <Table
        caption={`Features by the alarms they raised; ${counted(performance.raised, "alarm")} in all`}
        rows={performance.frequent}
        rowKey={({ featureId }) => featureId}
        empty={<Note kind="empty" title="No alarm was raised in these days" />}
        columns={[
          {
            key: "feature",
            head: "Feature",
            cell: ({ featureId }) => <FeatureLink shown={shown} id={featureId} />,
          },
          { key: "raised", head: "Raised", figures: true, cell: ({ raised }) => raised },
          { key: "share", head: "Share", figures: true, cell: ({ share }) => percent(share) },
          { key: "noCause", head: "No cause found", figures: true, cell: ({ noCause }) => noCause },
          {
            key: "expected",
            head: "Expected by chance",
            figures: true,
            cell: ({ featureId }) => fixed(shown.expected.get(featureId) ?? 0, 1),
          },
        ]}
      />
    </Section>
  );
}

function Standing({ shown, zone }: { shown: ShownPerformance; zone: string }) {
  const { stale, shelved } = shown;
  return (
    <Section
      title="Stale and shelved"
      id="stale"
      purpose="Stale: out for more than a day (ISA-18.2, from memory). An alarm that stands for days teaches people to look away."
    >
      {stale.length + shelved.length === 0 ? <Note kind="empty" title="None" /> : null}
      <ul className={styles.list}>
        {stale.map(({ id, featureId, since }) => (
          <li key={id}>
            <Link href={`/alarms/${id}`}>{shown.features.get(featureId)?.name}</Link>, out since{" "}
            <When at={since} zone={zone} as="short" /> ({durationWords(shown.to - since)})
          </li>
        ))}
        {shelved.map(({ id, featureId, until }) => (
          <li key={id}>
            <StateWord state="shelved" />{" "}
            <Link href={`/alarms/${id}`}>{shown.features.get(featureId)?.name}</Link>, until{" "}
            <When at={until} zone={zone} as="short" />
          </li>
        ))}
      </ul>
    </Section>
  );
}

function Savings({ shown }: { shown: ShownPerformance }) {
  return (
    <Section
      title="Where there could be fewer"
      id="fewer"
      purpose="For each plan the rule beside the limits whose absence would save most false alarms in these days. It also notices less: the alarm budget shows how much later."
    >
      <MostInVain shown={shown} />
      <Table
        caption="Plans by what one rule less would save"
        rows={shown.savings}
        rowKey={({ key }) => key}
        empty={<Note kind="not-yet" title="Nothing was measured in these days" />}
        columns={[
          {
            key: "plan",
            head: "Rules in force",
            cell: ({ key, rules, features, ...plan }) => (
              <>
                <Link href={`/plan/budget?plan=${encodeURIComponent(key)}#rules`}>{ruleSetName(rules)}</Link>{" "}
                <span className={styles.soft}>
                  {chartWords(plan)}; {counted(features, "feature")}
                </span>
              </>
            ),
          },
          { key: "raised", head: "Raised", figures: true, cell: ({ raised }) => raised },
          {
            key: "expected",
            head: "Expected by chance",
            figures: true,
            cell: ({ expected }) => fixed(expected, 1),
          },
          {
            key: "best",
            head: "Saves most",
            cell: ({ best }) => (best ? ruleBySlug(best.rule).statement : "only the limits are in force"),
          },
          {
            key: "saved",
            head: "Fewer",
            figures: true,
            cell: ({ best }) => (best ? fixed(best.saved, 1) : "–"),
          },
        ]}
      />
    </Section>
  );
}

/** The feature in which most was looked for and nothing found. */
function MostInVain({ shown }: { shown: ShownPerformance }) {
  const most = shown.performance?.frequent.toSorted((a, b) => b.noCause - a.noCause)[0];
  if (!most || most.noCause < 2) return null;
  return (
    <p>
      Most was looked for in vain at <FeatureLink shown={shown} id={most.featureId} />: in {most.noCause} of
      its {most.raised} alarms no cause was found, and {fixed(shown.expected.get(most.featureId) ?? 0, 1)} are
      expected by chance. Where there are many more, its limits may not fit the process any more: choose a new
      baseline on its chart.
    </p>
  );
}

function FeatureLink({ shown, id }: { shown: ShownPerformance; id: number }) {
  const feature = shown.features.get(id);
  if (!feature) return <>a feature that is gone</>;
  return (
    <>
      <Link href={`/features/${id}`}>{feature.name}</Link>{" "}
      <span className={styles.soft}>{partName(feature.part)}</span>
    </>
  );
}
