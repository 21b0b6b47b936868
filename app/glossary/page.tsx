import { use } from "react";
import { GLOSSARY, type Term } from "../../lib/glossary/terms";
import { requirePage } from "../access";
import { Link } from "../fittings/link";
import { PageFrame, Section } from "../fittings/page-frame";
import { words } from "../language/language";
import styles from "./glossary.module.css";

export async function generateMetadata() {
  return { title: (await words()).glossary.title };
}

/** The words of the trade as the pages use them, each with where it is at home. */
export default async function GlossaryPage() {
  await requirePage("/glossary");
  const { glossary: said } = await words();
  return (
    <PageFrame title={said.title} purpose={said.purpose}>
      {GLOSSARY.map(({ group, terms }) => (
        <Section key={group} title={said.groups[group]}>
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

function Entry({ term: { slug, see } }: { term: Term }) {
  const { glossary: said, terms } = use(words());
  const { meaning, source } = said.entries[slug];
  return (
    <div id={slug} className={styles.term}>
      <dt>{terms[slug]}</dt>
      <dd>
        <p>{meaning}</p>
        <p className={styles.source}>{said.source(source)}</p>
        {see.length > 0 ? (
          <p className={styles.source}>
            {said.see}{" "}
            {see.map((other, i) => (
              <span key={other}>
                {i > 0 ? " · " : ""}
                <Link href={`/glossary#${other}`}>{terms[other]}</Link>
              </span>
            ))}
          </p>
        ) : null}
      </dd>
    </div>
  );
}
