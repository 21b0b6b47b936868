"use client";

import { type MouseEvent, useTransition } from "react";
import type { RuleCost } from "../../lib/alarm-budget/rule-cost";
import { fill } from "../../lib/words/fill";
import { Button } from "../fittings/controls";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { costOfRules } from "./cost-action";
import type { CostAnswer } from "./cost-answer";
import type { FormWords } from "./form-words";
import styles from "./plan.module.css";
import { type CostLine, RuleCostTable } from "./rule-cost-table";

/** Beside the rules of a form: what the stored set costs, and on request what the ticked one would. */
export function RuleCostPanel({
  stored,
  answer,
  onAnswer,
  words,
}: {
  /** Null for a feature that is not stored yet, or has no rules. */
  stored: RuleCost | null;
  /** For the ticks as they stand; null once they changed. */
  answer: CostAnswer | null;
  onAnswer: (answer: CostAnswer) => void;
  words: FormWords;
}) {
  const { rules: said } = words;
  const [isAsking, startAsking] = useTransition();
  const ask = (event: MouseEvent<HTMLButtonElement>) => {
    const { form } = event.currentTarget;
    if (!form) return;
    const typed = new FormData(form);
    startAsking(async () => {
      onAnswer(
        await costOfRules({
          chart: typed.get("chart"),
          subgroupSize: typed.get("subgroupSize"),
          rules: typed.getAll("rules"),
        }),
      );
    });
  };
  const lines: CostLine[] = stored ? [{ name: said.inForce, cost: stored }] : [];
  if (answer?.ok) {
    const { cost, rules, chart: kind, subgroupSize: size } = answer;
    const name = words.charts.kinds[kind];
    const chart = kind === "i-mr" ? name : fill(said.chartOf, { chart: name, size });
    const count = rules === 1 ? said.oneRule : fill(said.rules, { count: rules });
    lines.push({ name: fill(said.ticked, { count, chart }), cost });
  }
  return (
    <div className={styles.cost}>
      <div aria-live="polite">
        {lines.length > 0 ? <RuleCostTable lines={lines} words={words.cost} /> : null}
        {answer && !answer.ok ? <Note kind="refused">{answer.message}</Note> : null}
      </div>
      <div className={styles.costActions}>
        <Button onClick={ask} disabled={isAsking}>
          {isAsking ? said.working : said.ask}
        </Button>
        <p className={styles.soft}>
          {said.about} <Link href="/plan/budget">{said.toBudget}</Link>
        </p>
      </div>
    </div>
  );
}
