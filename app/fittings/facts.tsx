import type { ReactNode } from "react";
import styles from "./facts.module.css";

/** Short facts of one thing side by side, as pairs of dt and dd in a div each. */
export function Facts({ children }: { children: ReactNode }) {
  return <dl className={styles.facts}>{children}</dl>;
}
