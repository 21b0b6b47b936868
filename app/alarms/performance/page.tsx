import { use } from "react";
import { OPERATOR_RATES } from "../../../lib/alarm-budget/operator-rates";
import type { AlarmPerformance, Waiting } from "../../../lib/alarms/performance";
import { chartWords, partName } from "../../../lib/format/names";
import { fixed, percent } from "../../../lib/format/numbers";
import { durationWords } from "../../../lib/format/times";
import { ruleBySlug } from "../../../lib/rules/known-rules";
import { ruleSetName } from "../../../lib/rules/rule-set-name";
import type { Words } from "../../../lib/words/words";
import { requirePage } from "../../access";
import { Button, ControlRow, LinkButton } from "../../fittings/controls";
import { SelectField } from "../../fittings/fields";
import { Filled } from "../../fittings/filled";
import { Link } from "../../fittings/link";
import { Note } from "../../fittings/note";
import { PageFrame, Section } from "../../fittings/page-frame";
import { StateWord } from "../../fittings/state-word";
import { Table } from "../../fittings/table";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import { plant } from "../../plant";
import { loadPerformance, type ShownPerformance } from "./load-performance";
import styles from "./performance.module.css";

export async function generateMetadata() {
  return { title: (await words()).performance.title };
}

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
  const { performance: said, alarms } = await words();

  return (
    <PageFrame
      title={said.title}
      above={<Link href="/alarms">{alarms.title}</Link>}
      purpose={said.purpose}
      facts={
        <span>
          <Filled
            text={said.window(shown.worked.count)}
            holes={{
              from: <When at={shown.from} zone={zone} as="day" />,
              to: <When at={shown.to} zone={zone} as="day" />,
            }}
          />
        </span>
      }
      actions={<LinkButton href="/plan/budget">{said.toBudget}</LinkButton>}
    >
      <form action="/alarms/performance">
        <ControlRow>
          <SelectField
            label={said.lookingBack}
            name="days"
            defaultValue={String(days)}
            choices={DAYS.map((each) => ({ value: String(each), label: said.days(each) }))}
          />
          <SelectField
            label={said.people}
            name="people"
            defaultValue={String(operators)}
            choices={Array.from({ length: MOST_OPERATORS }, (_, i) => ({
              value: String(i + 1),
              label: String(i + 1),
            }))}
          />
          <Button type="submit">{said.show}</Button>
        </ControlRow>
      </form>
      {shown.performance === null ? (
        <Note kind="not-yet" title={said.noFigures}>
          {said.nothingMeasured(days)}
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

function Rates({
  performance,
  shown,
  operators,
}: {
  performance: AlarmPerformance;
  shown: ShownPerformance;
  operators: number;
}) {
  const { performance: said, times } = use(words());
  const { raised, perShift, perOperatorHour, level, toAcknowledge, toClose } = performance;
  const waiting = (waited: Waiting) => waitingWords(waited, said, times);
  return (
    <section aria-label={said.rates} className={styles.rates}>
      <dl className={styles.figures}>
        <Figure term={said.raised} value={String(raised)} words={said.perShift(fixed(perShift, 1))} />
        <Figure
          term={said.perHour}
          value={fixed(perOperatorHour, 2)}
          words={said.operators(operators, fixed(shown.worked.hours, 0))}
        />
        <Figure term={said.toAcknowledge} {...waiting(toAcknowledge)} />
        <Figure term={said.toClose} {...waiting(toClose)} />
      </dl>
      <p>
        {said.levels[level]}{" "}
        {said.standard(OPERATOR_RATES.acceptable.perHour, OPERATOR_RATES.mostManageable.perHour)}{" "}
        {said.unanswered(shown.unanswered)}
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

function waitingWords(
  { count, medianMs, ninetyMs }: Waiting,
  said: Words["performance"],
  times: Words["times"],
): { value: string; words: string } {
  if (medianMs === null || ninetyMs === null) return { value: "–", words: said.noneYet };
  return {
    value: durationWords(medianMs, times),
    words: said.median(count, durationWords(ninetyMs, times)),
  };
}

function Frequent({ performance, shown }: { performance: AlarmPerformance; shown: ShownPerformance }) {
  const { performance: said } = use(words());
  const { heads } = said;
  return (
    <Section title={said.frequent} id="frequent" purpose={said.frequentPurpose}>
      <Table
        caption={said.frequentCaption(performance.raised)}
        rows={performance.frequent}
        rowKey={({ featureId }) => featureId}
        empty={<Note kind="empty" title={said.noneRaised} />}
        columns={[
          {
            key: "feature",
            head: heads.feature,
            cell: ({ featureId }) => <FeatureLink shown={shown} id={featureId} />,
          },
          { key: "raised", head: heads.raised, figures: true, cell: ({ raised }) => raised },
          { key: "share", head: heads.share, figures: true, cell: ({ share }) => percent(share) },
          { key: "noCause", head: heads.noCause, figures: true, cell: ({ noCause }) => noCause },
          {
            key: "expected",
            head: heads.expected,
            figures: true,
            cell: ({ featureId }) => (
              <data value={shown.expected.get(featureId) ?? 0}>
                {fixed(shown.expected.get(featureId) ?? 0, 1)}
              </data>
            ),
          },
        ]}
      />
    </Section>
  );
}

function Standing({ shown, zone }: { shown: ShownPerformance; zone: string }) {
  const { performance: said, times } = use(words());
  const { stale, shelved } = shown;
  return (
    <Section title={said.stale} id="stale" purpose={said.stalePurpose}>
      {stale.length + shelved.length === 0 ? <Note kind="empty" title={said.none} /> : null}
      <ul className={styles.list}>
        {stale.map(({ id, featureId, since }) => (
          <li key={id}>
            <Link href={`/alarms/${id}`}>{shown.features.get(featureId)?.name}</Link>,{" "}
            <Filled
              text={said.outSince(durationWords(shown.to - since, times))}
              holes={{ since: <When at={since} zone={zone} as="short" /> }}
            />
          </li>
        ))}
        {shelved.map(({ id, featureId, until }) => (
          <li key={id}>
            <StateWord state="shelved" />{" "}
            <Link href={`/alarms/${id}`}>{shown.features.get(featureId)?.name}</Link>,{" "}
            <Filled text={said.until} holes={{ until: <When at={until} zone={zone} as="short" /> }} />
          </li>
        ))}
      </ul>
    </Section>
  );
}

function Savings({ shown }: { shown: ShownPerformance }) {
  const { performance: said, charts, rules: ruleWords } = use(words());
  const { heads } = said;
  return (
    <Section title={said.fewer} id="fewer" purpose={said.fewerPurpose}>
      <MostInVain shown={shown} />
      <Table
        caption={said.plansCaption}
        rows={shown.savings}
        rowKey={({ key }) => key}
        empty={<Note kind="not-yet" title={said.notMeasured} />}
        columns={[
          {
            key: "plan",
            head: heads.plan,
            cell: ({ key, rules, features, ...plan }) => (
              <>
                <Link href={`/plan/budget?plan=${encodeURIComponent(key)}#rules`}>
                  {ruleSetName(rules, said.sets)}
                </Link>{" "}
                <span className={styles.soft}>
                  {chartWords(plan, charts)}; {said.features(features)}
                </span>
              </>
            ),
          },
          { key: "raised", head: heads.raised, figures: true, cell: ({ raised }) => raised },
          {
            key: "expected",
            head: heads.expected,
            figures: true,
            cell: ({ expected }) => <data value={expected}>{fixed(expected, 1)}</data>,
          },
          {
            key: "best",
            head: heads.best,
            cell: ({ best }) => (best ? ruleBySlug(best.rule).statementIn(ruleWords) : said.onlyLimits),
          },
          {
            key: "saved",
            head: heads.saved,
            figures: true,
            cell: ({ best }) => (best ? <data value={best.saved}>{fixed(best.saved, 1)}</data> : "–"),
          },
        ]}
      />
    </Section>
  );
}

/** The feature in which most was looked for and nothing found. */
function MostInVain({ shown }: { shown: ShownPerformance }) {
  const { performance: said } = use(words());
  const most = shown.performance?.frequent.toSorted((a, b) => b.noCause - a.noCause)[0];
  if (!most || most.noCause < 2) return null;
  return (
    <p>
      <Filled
        text={said.inVain({
          ...most,
          expected: fixed(shown.expected.get(most.featureId) ?? 0, 1),
        })}
        holes={{ feature: <FeatureLink shown={shown} id={most.featureId} /> }}
      />
    </p>
  );
}

function FeatureLink({ shown, id }: { shown: ShownPerformance; id: number }) {
  const { performance: said } = use(words());
  const feature = shown.features.get(id);
  if (!feature) return <>{said.gone}</>;
  return (
    <>
      <Link href={`/features/${id}`}>{feature.name}</Link>{" "}
      <span className={styles.soft}>{partName(feature.part)}</span>
    </>
  );
}
