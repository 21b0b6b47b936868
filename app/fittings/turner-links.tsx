import { LinkButton } from "./controls";
import styles from "./page-turner.module.css";

/** What stands below a long list, in words; see `turnerOf`. */
export type Turner = {
  /** What is turned, for who hears the links without the list. */
  label: string;
  /** Which of its rows these are. */
  rows: string;
  links: { href: string; words: string }[];
};

export function TurnerLinks({ turner }: { turner: Turner | null }) {
  if (turner === null) return null;
  const { label, rows, links } = turner;
  return (
    <nav aria-label={label} className={styles.turner}>
      <p>{rows}</p>
      {links.map(({ href, words }) => (
        <LinkButton key={words} href={href}>
          {words}
        </LinkButton>
      ))}
    </nav>
  );
}
