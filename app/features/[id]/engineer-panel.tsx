"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useState, useTransition } from "react";
import { whole } from "../../../lib/format/numbers";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Button } from "../../fittings/controls";
import { SelectField, TextArea, TextField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import { freezeChartLimits, leaveOutSubgroups, takeSubgroupsBackIn } from "./actions";
import { numberOf } from "./chart-view";
import { EFFECTIVE } from "./engineer-answers";
import type { EngineerView } from "./engineer-view";
import { useFocusedPoint } from "./focused-point";
import styles from "./panels.module.css";
import { useHereAddress } from "./shown-history";

type PanelWords = Words["features"]["engineer"];
type Range = { first: string; last: string };

/**
 * What an engineer does about the chart: choose a baseline, look at the limits it gives, freeze them with a
 * reason; leave subgroups out with their assigned cause, or take them back in.
 *
 * `children` is what the baseline in the address would give.
 */
export function EngineerPanel({
  causes,
  address,
  words,
  children,
  ...view
}: EngineerView & {
  causes: readonly string[];
  words: PanelWords;
  /** The page with its other query, without a baseline. */
  address: string;
  children?: ReactNode;
}) {
  return (
    <div className={styles.engineer}>
      <BaselineTask view={view} address={address} preview={children} words={words} />
      <LeaveOutTask view={view} causes={causes} words={words} />
    </div>
  );
}

function BaselineTask({
  view,
  address,
  preview,
  words,
}: {
  view: EngineerView;
  address: string;
  preview: ReactNode;
  words: PanelWords;
}) {
  const router = useRouter();
  const hereAddress = useHereAddress();
  const [isLooking, startLooking] = useTransition();
  const start = view.baseline ?? view.suggested;
  const [range, setRange] = useState<Range>({
    first: start ? String(numberOf(start.from)) : "",
    last: start ? String(numberOf(start.to)) : "",
  });
  const [estimator, setEstimator] = useState(view.estimator);
  const [answer, freeze] = useAnswer(freezeChartLimits, {
    done: false,
    message: "",
    fields: {
      reason: "",
      effective: view.isFirst ? "everything" : "after-baseline",
      effectiveNumber: "",
    },
    attempt: 0,
  });

  function look(): void {
    const { first, last } = range;
    if (!/^\d+$/.test(first) || !/^\d+$/.test(last)) return;
    const way = estimator === "" ? "" : `&estimator=${estimator}`;
    const asked = `baseline=${Math.max(0, Number(first) - 1)}-${Math.max(0, Number(last) - 1)}${way}`;
    const here = hereAddress(address);
    startLooking(() => router.replace(`${here}${here.includes("?") ? "&" : "?"}${asked}`, { scroll: false }));
  }

  return (
    <section className={styles.task} aria-labelledby="baseline-title">
      <h3 id="baseline-title">{words.freeze}</h3>
      <p className={styles.soft}>{words.freezePurpose}</p>
      <form action={freeze} className={styles.form} noValidate>
        <SeenChart view={view} />
        <SubgroupRange
          range={range}
          onChange={setRange}
          count={view.subgroupCount}
          labels={words.baseline}
          words={words}
        />
        {view.estimators.length > 1 ? (
          <SelectField
            label={words.estimator}
            name="estimator"
            value={estimator}
            onChange={(event) => setEstimator(event.target.value)}
            choices={view.estimators}
            hint={words.estimatorHint}
          />
        ) : (
          <input type="hidden" name="estimator" value="" />
        )}
        <div className={styles.buttons}>
          <Button onClick={look} disabled={isLooking}>
            {isLooking ? words.looking : words.look}
          </Button>
        </div>
        <div aria-live="polite" aria-busy={isLooking}>
          {preview}
        </div>
        <div className={styles.form} key={answer.attempt}>
          <JudgesFrom
            isFirst={view.isFirst}
            count={view.subgroupCount}
            fields={answer.fields}
            words={words}
          />
          <TextArea
            label={words.reason}
            hint={words.reasonHint}
            name="reason"
            rows={2}
            defaultValue={answer.fields.reason}
          />
        </div>
        <AnswerNote answer={answer} />
        <div className={styles.buttons}>
          <SubmitButton working={words.freezing}>{words.freezeThese}</SubmitButton>
        </div>
      </form>
    </section>
  );
}

function JudgesFrom({
  isFirst,
  count,
  fields,
  words,
}: {
  isFirst: boolean;
  count: number;
  fields: { effective: string; effectiveNumber: string };
  words: PanelWords;
}) {
  const choices = EFFECTIVE.filter((value) => isFirst || value !== "everything");
  return (
    <fieldset>
      <legend>{words.judge}</legend>
      {choices.map((value) => (
        <div key={value} className={styles.choice}>
          <label className={styles.choice}>
            <input type="radio" name="effective" value={value} defaultChecked={fields.effective === value} />
            {words.from[value]}
          </label>
          {value === "from-number" ? (
            <input
              className={styles.number}
              type="text"
              inputMode="numeric"
              name="effectiveNumber"
              aria-label={fill(words.fromNumber, { count })}
              autoComplete="off"
              defaultValue={fields.effectiveNumber}
            />
          ) : null}
        </div>
      ))}
    </fieldset>
  );
}

/** No cause of the list fits. */
const OTHER = "";

function LeaveOutTask({
  view,
  causes,
  words,
}: {
  view: EngineerView;
  causes: readonly string[];
  words: PanelWords;
}) {
  const [range, setRange] = useState<Range>({ first: "", last: "" });
  const [answer, leaveOut] = useAnswer(leaveOutSubgroups, {
    done: false,
    message: "",
    fields: { cause: "", detail: "" },
    attempt: 0,
  });
  return (
    <section className={styles.task} aria-labelledby="leave-out-title">
      <h3 id="leave-out-title">{words.leaveOut}</h3>
      <p className={styles.soft}>{words.leaveOutPurpose}</p>
      <form action={leaveOut} className={styles.form} noValidate>
        <SeenChart view={view} />
        <SubgroupRange
          range={range}
          onChange={setRange}
          count={view.subgroupCount}
          labels={words.left}
          words={words}
        />
        <div className={styles.form} key={answer.attempt}>
          <SelectField
            label={words.cause}
            name="cause"
            defaultValue={answer.fields.cause}
            choices={[
              { value: OTHER, label: words.noCause },
              ...causes.map((cause) => ({ value: cause, label: cause })),
            ]}
          />
          <TextField
            label={words.detail}
            name="detail"
            hint={words.detailHint}
            defaultValue={answer.fields.detail}
          />
        </div>
        <AnswerNote answer={answer} />
        <div className={styles.buttons}>
          <SubmitButton kind="plain" working={words.leavingOut}>
            {words.leave}
          </SubmitButton>
        </div>
      </form>
      <LeftOut exclusions={view.exclusions} words={words} />
    </section>
  );
}

function LeftOut({ exclusions, words: said }: Pick<EngineerView, "exclusions"> & { words: PanelWords }) {
  const [answer, takeBack] = useAnswer(takeSubgroupsBackIn, { done: false, message: "" });
  return (
    <form action={takeBack} className={styles.form}>
      <h4>{said.leftOut}</h4>
      {exclusions.length === 0 ? <p className={styles.soft}>{said.noneLeftOut}</p> : null}
      <ul className={styles.leftOut}>
        {exclusions.map(({ id, words, cause }) => (
          <li key={id}>
            <span>
              {cause}
              <span className={styles.soft}> · {words}</span>
            </span>
            <Button
              type="submit"
              size="dense"
              name="exclusion"
              value={id}
              aria-label={fill(said.takeInWhich, { which: words })}
            >
              {said.takeIn}
            </Button>
          </li>
        ))}
      </ul>
      <AnswerNote answer={answer} />
    </form>
  );
}

/** Which chart the numbers in a form belong to. */
function SeenChart({ view }: { view: EngineerView }) {
  return (
    <>
      <input type="hidden" name="feature" value={view.featureId} />
      <input type="hidden" name="count" value={view.subgroupCount} />
      <input type="hidden" name="lastAt" value={view.lastAt} />
    </>
  );
}

/** First and last subgroup by their numbers, typed or taken from the point that is chosen on the chart. */
function SubgroupRange({
  range,
  onChange,
  count,
  labels,
  words,
}: {
  range: Range;
  onChange: (range: Range) => void;
  count: number;
  labels: Range;
  words: PanelWords;
}) {
  const chosen = useFocusedPoint();
  return (
    <div className={styles.pair}>
      {(["first", "last"] as const).map((end) => (
        <div key={end} className={styles.taken}>
          <TextField
            label={labels[end]}
            name={end}
            inputMode="numeric"
            hint={fill(words.range, { count: whole(count) })}
            value={range[end]}
            onChange={(event) => onChange({ ...range, [end]: event.target.value })}
          />
          <Button
            size="dense"
            disabled={chosen === null}
            onClick={() => {
              if (chosen !== null) onChange({ ...range, [end]: String(numberOf(chosen)) });
            }}
          >
            {chosen === null ? words.take : fill(words.takeNumber, { number: numberOf(chosen) })}
            <span className="only-read-out">{fill(words.as, { which: asInside(labels[end]) })}</span>
          </Button>
        </div>
      ))}
    </div>
  );
}

/** A label within a sentence. */
function asInside(label: string): string {
  return `${label.charAt(0).toLowerCase()}${label.slice(1)}`;
}
