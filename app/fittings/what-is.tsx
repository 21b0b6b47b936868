import { useCommonWords } from "#common-words";
import { type TermSlug, termBySlug } from "../../lib/glossary/terms";
import { Link } from "./link";
import styles from "./what-is.module.css";

/** From a term where it stands to its entry in the glossary. */
export function WhatIs({ term }: { term: TermSlug }) {
  const { fittings } = useCommonWords();
  return (
    <Link href={`/glossary#${term}`} className={styles.link} title={termBySlug(term).word}>
      {fittings.whatIsThis}
    </Link>
  );
}
