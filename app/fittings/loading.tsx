import styles from "./loading.module.css";

/** Stands where rows will stand, in about their height, so that nothing jumps when they come. */
export function LoadingRows({ label, rows = 6 }: { label: string; rows?: number }) {
  const each = Array.from({ length: rows }, (_, row) => row);
  return (
    <div className={styles.rows} role="status">
      <span className="only-read-out">{label}</span>
      {each.map((row) => (
        <span key={row} className={styles.row} aria-hidden="true" />
      ))}
    </div>
  );
}
