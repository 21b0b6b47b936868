import { InvalidInput } from "../../lib/checks";
import { RULES, ruleBySlug } from "../../lib/rules/known-rules";
import type { RunRule } from "../../lib/rules/rule";
import { WrongUsage } from "./refusal";

/** The rules named in `--rules slug,slug`, in that order. */
export function rulesNamed(list: string): RunRule[] {
  const slugs = list.split(",").map((slug) => slug.trim());
  if (slugs.includes("")) throw new WrongUsage(`--rules "${list}" holds an empty name.`);
  return slugs.map((slug) => {
    try {
      return ruleBySlug(slug);
    } catch (error) {
      if (!(error instanceof InvalidInput)) throw error;
      throw new WrongUsage(
        `there is no rule "${slug}". Known: ${RULES.map((rule) => rule.slug).join(", ")}.`,
      );
    }
  });
}

/** The known rules with their statements, one a line, for the help of a verb. */
export function rulesForHelp(): string {
  const width = Math.max(...RULES.map(({ slug }) => slug.length));
  return RULES.map(({ slug, statement }) => `  ${slug.padEnd(width)}  ${statement}`).join("\n");
}
