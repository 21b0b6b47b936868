import type { ReactNode } from "react";
import type { TermSlug } from "../../lib/glossary/terms";
import styles from "./page-frame.module.css";
import { WhatIs } from "./what-is";

/**
 * The head of a page and its content: what it is, in one sentence what it is for, and what can be done here.
 *
 * `above` is for the way here (the part a feature belongs to), `facts` for short statements of state.
 */
export function PageFrame({
  title,
  purpose,
  above,
  facts,
  actions,
  about,
  term,
  children,
}: {
  title: ReactNode;
  purpose?: ReactNode;
  /** What pictures saved from this page are of, beside its title: part and window. */
  about?: string;
  /** What the page is about, for who has not met the word. */
  term?: TermSlug;
  above?: ReactNode;
  facts?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
}) {
  return (
    <main id="content" tabIndex={-1} className={styles.page} data-about={about}>
      <header className={styles.head}>
        <div className={styles.words}>
          {above ? <div className={styles.above}>{above}</div> : null}
          <h1>{title}</h1>
          {purpose ? <p className={styles.purpose}>{purpose}</p> : null}
          {term ? <WhatIs term={term} /> : null}
          {facts ? <div className={styles.facts}>{facts}</div> : null}
        </div>
        {actions ? <div className={styles.actions}>{actions}</div> : null}
      </header>
      {children}
    </main>
  );
}

/** A part of a page with its own heading. */
export function Section({
  title,
  id,
  purpose,
  actions,
  term,
  children,
}: {
  title: ReactNode;
  id?: string;
  purpose?: ReactNode;
  actions?: ReactNode;
  /** What the section is about, for who has not met the word. */
  term?: TermSlug;
  children: ReactNode;
}) {
  return (
    <section id={id} className={styles.section}>
      <div className={styles.sectionHead}>
        <div>
          <div className={styles.titled}>
            <h2>{title}</h2>
            {term ? <WhatIs term={term} /> : null}
          </div>
          {purpose ? <p className={styles.purpose}>{purpose}</p> : null}
        </div>
        {actions ? <div className={styles.actions}>{actions}</div> : null}
      </div>
      {children}
    </section>
  );
}
