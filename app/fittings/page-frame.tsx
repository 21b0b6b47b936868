import type { ReactNode } from "react";
import styles from "./page-frame.module.css";

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
  children,
}: {
  title: ReactNode;
  purpose?: ReactNode;
  above?: ReactNode;
  facts?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
}) {
  return (
    <main id="content" tabIndex={-1} className={styles.page}>
      <header className={styles.head}>
        <div className={styles.words}>
          {above ? <div className={styles.above}>{above}</div> : null}
          <h1>{title}</h1>
          {purpose ? <p className={styles.purpose}>{purpose}</p> : null}
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
  children,
}: {
  title: ReactNode;
  id?: string;
  purpose?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
}) {
  return (
    <section id={id} className={styles.section}>
      <div className={styles.sectionHead}>
        <div>
          <h2>{title}</h2>
          {purpose ? <p className={styles.purpose}>{purpose}</p> : null}
        </div>
        {actions ? <div className={styles.actions}>{actions}</div> : null}
      </div>
      {children}
    </section>
  );
}
