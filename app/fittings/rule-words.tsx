import { ruleBySlug } from "../../lib/rules/known-rules";
import { signalRule } from "../../lib/rules/memory-rules";
import type { Direction } from "../../lib/rules/pattern";
import styles from "./rule-words.module.css";

/** What a run rule says: its short phrase for a direction, and its whole statement in the title. */
export function RulePhrase({ slug, direction }: { slug: string; direction: Direction }) {
  const rule = signalRule(slug);
  return <span title={rule.statement}>{rule.phrase(direction)}</span>;
}

/** The statements of several rules with where each comes from. */
export function RuleList({ slugs }: { slugs: readonly string[] }) {
  return (
    <ul className={styles.list}>
      {slugs.map((slug) => {
        const { statement, source } = ruleBySlug(slug);
        return (
          <li key={slug}>
            {statement} <span className={styles.source}>{source}</span>
          </li>
        );
      })}
    </ul>
  );
}
