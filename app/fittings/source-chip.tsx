import { useCommonWords } from "#common-words";
import type { SourceKind } from "../../lib/measurements/series";
import { Link } from "./link";
import styles from "./source-chip.module.css";

/** A fixture, tool, machine, gauge, operator or setup by its code; with `href` a link to what it did. */
export function SourceChip({ kind, code, href }: { kind: SourceKind | "lot"; code: string; href?: string }) {
  const { trade } = useCommonWords();
  const words = (
    <>
      <span className={styles.kind}>{trade.sources[kind]}</span> {code}
    </>
  );
  return href ? (
    <Link href={href} className={styles.chip}>
      {words}
    </Link>
  ) : (
    <span className={styles.chip}>{words}</span>
  );
}
