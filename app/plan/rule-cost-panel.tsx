"use client";

import { type MouseEvent, useTransition } from "react";
import type { RuleCost } from "../../lib/alarm-budget/rule-cost";
import { chartWords } from "../../lib/format/names";
import { counted } from "../../lib/format/numbers";
import { Button } from "../fittings/controls";
import { Link } from "../fittings/link";
import { Note } from "../fittings/note";
import { costOfRules } from "./cost-action";
import type { CostAnswer } from "./cost-answer";
import styles from "./plan.module.css";
import { type CostLine, RuleCostTable } from "./rule-cost-table";

/** Beside the rules of a form: what the stored set costs, and on request what the ticked one would. */
export function RuleCostPanel({
  stored,
  answer,
  onAnswer,
}: {
  /** Null for a feature that is not stored yet, or has no rules. */
  stored: RuleCost | null;
  /** For the ticks as they stand; null once they changed. */
  answer: CostAnswer | null;
  onAnswer: (answer: CostAnswer) => void;
}) {
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
  const lines: CostLine[] = stored ? [{ name: "In force", cost: stored }] : [];
  if (answer?.ok) {
    const { cost, rules } = answer;
    lines.push({ name: `Ticked: ${counted(rules, "rule")}, ${chartWords(answer)}`, cost });
  }
  return (
    <div className={styles.cost}>
      <div aria-live="polite">
        {lines.length > 0 ? <RuleCostTable lines={lines} /> : null}
        {answer && !answer.ok ? <Note kind="refused">{answer.message}</Note> : null}
      </div>
      <div className={styles.costActions}>
        <Button onClick={ask} disabled={isAsking}>
          {isAsking ? "Working it out …" : "What would this cost?"}
        </Button>
        <p className={styles.soft}>
          Subgroups, with nothing else wrong; “≈” is simulated, all else exact. Nothing is saved.{" "}
          <Link href="/plan/budget">Alarm budget of the plant</Link>
        </p>
      </div>
    </div>
  );
}
