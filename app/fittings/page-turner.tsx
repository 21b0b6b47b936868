import { use } from "react";
import type { Paged } from "../../lib/format/paged";
import { words } from "../language/language";
import { LinkButton } from "./controls";
import styles from "./page-turner.module.css";

/** Below a long list: which of its rows these are, with links to the others; nothing where all of them stand above. */
export function PageTurner({
  label,
  shown: { page, pages, from, to, count },
  toPage,
}: {
  /** What is turned, for who hears the links without the list. */
  label: string;
  shown: Paged<unknown>;
  toPage: (page: number) => string;
}) {
  const { turning } = use(words()).board;
  if (pages === 1) return null;
  return (
    <nav aria-label={label} className={styles.turner}>
      <p>{turning.shown(from, to, count)}</p>
      {page > 2 ? <LinkButton href={toPage(1)}>{turning.first}</LinkButton> : null}
      {page > 1 ? <LinkButton href={toPage(page - 1)}>{turning.previous}</LinkButton> : null}
      {page < pages ? <LinkButton href={toPage(page + 1)}>{turning.next}</LinkButton> : null}
    </nav>
  );
}
