import { type ReactNode, use } from "react";
import { KeepPicture } from "../../fittings/keep-picture";
import { words as language } from "../../language/language";
import styles from "./detail.module.css";

/**
 * A picture with its heading, what it says in words, and the same figures as a table for whoever reads
 * rather than looks.
 *
 * On a narrow screen it scrolls inside its own frame rather than shrink its letters, reachable by keyboard.
 */
export function Picture({
  id,
  title,
  description,
  size,
  isWide = false,
  words,
  table,
  children,
}: {
  id: string;
  title: string;
  /** What the picture shows, for those who cannot see it. */
  description: string;
  size: { width: number; height: number };
  isWide?: boolean;
  words: ReactNode;
  table: ReactNode;
  children: ReactNode;
}) {
  const { pictures: said } = use(language()).capability;
  return (
    <figure className={isWide ? styles.wideFigure : styles.figure} aria-labelledby={`${id}-heading`}>
      <h3 id={`${id}-heading`}>{title}</h3>
      <KeepPicture title={title}>
        <section className={styles.scroll} aria-label={title} {...REACHABLE}>
          <svg
            viewBox={`0 0 ${size.width} ${size.height}`}
            role="img"
            aria-labelledby={`${id}-title ${id}-desc`}
            className={styles.picture}
          >
            <title id={`${id}-title`}>{title}</title>
            <desc id={`${id}-desc`}>{description}</desc>
            {children}
          </svg>
        </section>
      </KeepPicture>
      <figcaption className={styles.caption}>{words}</figcaption>
      <details className={styles.asTable}>
        <summary>
          <span className="only-read-out">{title}: </span>
          {said.asTable}
        </summary>
        {table}
      </details>
    </figure>
  );
}

/** Not something to press, but a frame that scrolls must be reachable by keyboard (WCAG 2.2, 2.1.1). */
const REACHABLE = { tabIndex: 0 };
