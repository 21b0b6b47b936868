import { useCommonWords } from "#common-words";
import type { TermSlug } from "../../lib/glossary/terms";
import { Link } from "./link";
import styles from "./what-is.module.css";

/** From a term where it stands to its entry in the glossary. */
export function WhatIs({ term }: { term: TermSlug }) {
  const { fittings, terms } = useCommonWords();
  return (
    <Link href={`/glossary#${term}`} className={styles.link} title={terms[term]}>
      {fittings.whatIsThis}
    </Link>
  );
}
