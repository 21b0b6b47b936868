import { GLOSSARY, type Term, termsBeside } from "../../lib/glossary/terms";
import { requirePage } from "../access";
import { Link } from "../fittings/link";
import { PageFrame, Section } from "../fittings/page-frame";
import styles from "./glossary.module.css";

export const metadata = { title: "Glossary" };

/** The words of the trade as the pages use them, each with where it is at home. */
export default async function GlossaryPage() {
  await requirePage("/glossary");
  return (
    <PageFrame
      title="Glossary"
      purpose="What the words on these pages mean, and which standards and handbooks they come from; those are named from memory, and the standard itself decides. How a figure of your own comes about stands beside it, under “How is this computed”."
    >
      {GLOSSARY.map(({ title, terms }) => (
        <Section key={title} title={title}>
          <dl className={styles.terms}>
            {terms.map((term) => (
              <Entry key={term.slug} term={term} />
            ))}
          </dl>
        </Section>
      ))}
    </PageFrame>
  );
}

function Entry({ term }: { term: Term }) {
  const { slug, word, meaning, source } = term;
  const beside = termsBeside(term);
  return (
    <div id={slug} className={styles.term}>
      <dt>{word}</dt>
      <dd>
        <p>{meaning}</p>
        <p className={styles.source}>Source: {source}.</p>
        {beside.length > 0 ? (
          <p className={styles.source}>
            See{" "}
            {beside.map((other, i) => (
              <span key={other.slug}>
                {i > 0 ? " · " : ""}
                <Link href={`/glossary#${other.slug}`}>{other.word}</Link>
              </span>
            ))}
          </p>
        ) : null}
      </dd>
    </div>
  );
}
