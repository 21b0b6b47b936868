import { useCommonWords } from "#common-words";
import { ruleBySlug } from "../../lib/rules/known-rules";
import { signalRule } from "../../lib/rules/memory-rules";
import type { Direction } from "../../lib/rules/pattern";
import styles from "./rule-words.module.css";

/** What a run rule says: its short phrase for a direction, and its whole statement in the title. */
export function RulePhrase({ slug, direction }: { slug: string; direction: Direction }) {
  const { rules } = useCommonWords();
  const rule = signalRule(slug);
  return <span title={rule.statementIn(rules)}>{rule.phrase(direction, rules)}</span>;
}

/** The statements of several rules with where each comes from. */
export function RuleList({ slugs }: { slugs: readonly string[] }) {
  const { rules } = useCommonWords();
  return (
    <ul className={styles.list}>
      {slugs.map((slug) => {
        const { statementIn, source } = ruleBySlug(slug);
        return (
          <li key={slug}>
            {statementIn(rules)} <span className={styles.source}>{rules.source(source)}</span>
          </li>
        );
      })}
    </ul>
  );
}
