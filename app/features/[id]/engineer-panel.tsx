"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useState, useTransition } from "react";
import { whole } from "../../../lib/format/numbers";
import { useAnswer } from "../../fittings/answer";
import { AnswerNote } from "../../fittings/answer-note";
import { Button } from "../../fittings/controls";
import { SelectField, TextArea, TextField } from "../../fittings/fields";
import { SubmitButton } from "../../fittings/submit-button";
import { freezeChartLimits, leaveOutSubgroups, takeSubgroupsBackIn } from "./actions";
import { numberOf } from "./chart-view";
import type { EngineerView } from "./engineer-view";
import { useFocusedPoint } from "./focused-point";
import styles from "./panels.module.css";

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
  children,
  ...view
}: EngineerView & {
  causes: readonly string[];
  /** The page with its other query, without a baseline. */
  address: string;
  children?: ReactNode;
}) {
  return (
    <div className={styles.engineer}>
      <BaselineTask view={view} address={address} preview={children} />
      <LeaveOutTask view={view} causes={causes} />
    </div>
  );
}

function BaselineTask({
  view,
  address,
  preview,
}: {
  view: EngineerView;
  address: string;
  preview: ReactNode;
}) {
  const router = useRouter();
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
    startLooking(() =>
      router.replace(`${address}${address.includes("?") ? "&" : "?"}${asked}`, { scroll: false }),
    );
  }

  return (
    <section className={styles.task} aria-labelledby="baseline-title">
      <h3 id="baseline-title">Freeze control limits</h3>
      <p className={styles.soft}>
        Choose subgroups in which the process ran as it should. New limits judge what comes after them;
        nothing moves limits but a person.
      </p>
      <form action={freeze} className={styles.form} noValidate>
        <SeenChart view={view} />
        <SubgroupRange
          range={range}
          onChange={setRange}
          count={view.subgroupCount}
          labels={{ first: "First of the baseline", last: "Last of the baseline" }}
        />
        {view.estimators.length > 1 ? (
          <SelectField
            label="Sigma within subgroups from"
            name="estimator"
            value={estimator}
            onChange={(event) => setEstimator(event.target.value)}
            choices={view.estimators}
            hint="Those that this baseline allows."
          />
        ) : (
          <input type="hidden" name="estimator" value="" />
        )}
        <div className={styles.buttons}>
          <Button onClick={look} disabled={isLooking}>
            {isLooking ? "Looking …" : "See what limits it gives"}
          </Button>
        </div>
        <div aria-live="polite" aria-busy={isLooking}>
          {preview}
        </div>
        <div className={styles.form} key={answer.attempt}>
          <JudgesFrom isFirst={view.isFirst} count={view.subgroupCount} fields={answer.fields} />
          <TextArea
            label="Reason"
            hint="Why these limits, and why now: the record keeps it."
            name="reason"
            rows={2}
            defaultValue={answer.fields.reason}
          />
        </div>
        <AnswerNote answer={answer} />
        <div className={styles.buttons}>
          <SubmitButton working="Freezing …">Freeze these limits</SubmitButton>
        </div>
      </form>
    </section>
  );
}

function JudgesFrom({
  isFirst,
  count,
  fields,
}: {
  isFirst: boolean;
  count: number;
  fields: { effective: string; effectiveNumber: string };
}) {
  const choices = [
    ...(isFirst ? [{ value: "everything", words: "the whole history" }] : []),
    { value: "after-baseline", words: "after the baseline" },
    { value: "from-number", words: "from a subgroup on:" },
  ];
  return (
    <fieldset>
      <legend>The new limits judge</legend>
      {choices.map(({ value, words }) => (
        <div key={value} className={styles.choice}>
          <label className={styles.choice}>
            <input type="radio" name="effective" value={value} defaultChecked={fields.effective === value} />
            {words}
          </label>
          {value === "from-number" ? (
            <input
              className={styles.number}
              type="text"
              inputMode="numeric"
              name="effectiveNumber"
              aria-label={`Subgroup from which the new limits judge, 1 to ${count}`}
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

function LeaveOutTask({ view, causes }: { view: EngineerView; causes: readonly string[] }) {
  const [range, setRange] = useState<Range>({ first: "", last: "" });
  const [answer, leaveOut] = useAnswer(leaveOutSubgroups, {
    done: false,
    message: "",
    fields: { cause: "", detail: "" },
    attempt: 0,
  });
  return (
    <section className={styles.task} aria-labelledby="leave-out-title">
      <h3 id="leave-out-title">Leave subgroups out</h3>
      <p className={styles.soft}>
        Only with an assigned cause: something known happened to them. They stay on the chart, hollow, and
        count neither for limits nor for rules.
      </p>
      <form action={leaveOut} className={styles.form} noValidate>
        <SeenChart view={view} />
        <SubgroupRange
          range={range}
          onChange={setRange}
          count={view.subgroupCount}
          labels={{ first: "First left out", last: "Last left out" }}
        />
        <div className={styles.form} key={answer.attempt}>
          <SelectField
            label="Assigned cause"
            name="cause"
            defaultValue={answer.fields.cause}
            choices={[
              { value: OTHER, label: "none of these: in words below" },
              ...causes.map((cause) => ({ value: cause, label: cause })),
            ]}
          />
          <TextField
            label="In words"
            name="detail"
            hint="What happened, with what was found or who knows of it."
            defaultValue={answer.fields.detail}
          />
        </div>
        <AnswerNote answer={answer} />
        <div className={styles.buttons}>
          <SubmitButton kind="plain" working="Leaving out …">
            Leave out
          </SubmitButton>
        </div>
      </form>
      <LeftOut exclusions={view.exclusions} />
    </section>
  );
}

function LeftOut({ exclusions }: Pick<EngineerView, "exclusions">) {
  const [answer, takeBack] = useAnswer(takeSubgroupsBackIn, { done: false, message: "" });
  return (
    <form action={takeBack} className={styles.form}>
      <h4>Left out now</h4>
      {exclusions.length === 0 ? <p className={styles.soft}>No subgroup is left out.</p> : null}
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
              aria-label={`Take back in: ${words}`}
            >
              Take back in
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
}: {
  range: Range;
  onChange: (range: Range) => void;
  count: number;
  labels: Range;
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
            hint={`Subgroup 1 to ${whole(count)}.`}
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
            Take the chosen point{chosen === null ? "" : `, ${numberOf(chosen)}`}
            <span className="only-read-out"> as {labels[end].toLowerCase()}</span>
          </Button>
        </div>
      ))}
    </div>
  );
}
