import styles from "./chart.module.css";
import { MarkSample } from "./marks";
import type { SourceLooks } from "./source-looks";

/** What the marks mean: shapes by standing, or shapes and colours by source. */
export function Legend({ looks, hasExcluded }: { looks: SourceLooks | null; hasExcluded: boolean }) {
  return (
    <ul className={styles.legend} data-legend="">
      {looks ? (
        <>
          {looks.listed.map(({ id, name, look, subgroups }) => (
            <li key={id}>
              <MarkSample mark={look.mark} fill={look.colour} /> {name}{" "}
              <span className={styles.soft}>({subgroups})</span>
            </li>
          ))}
          {looks.others > 0 ? (
            <li>
              <MarkSample mark="bar" fill="var(--calm)" /> {looks.others} others
            </li>
          ) : null}
          <li>
            <MarkSample mark="diamond" className={styles.about ?? ""} /> about it: beyond a limit
          </li>
        </>
      ) : (
        <>
          <li>
            <MarkSample mark="disc" className={styles.within ?? ""} /> within limits
          </li>
          <li>
            <MarkSample mark="disc" className={styles.member ?? ""} /> in a pattern
          </li>
          <li>
            <MarkSample mark="diamond" className={styles.beyond ?? ""} /> beyond a limit
          </li>
        </>
      )}
      {hasExcluded ? (
        <li>
          <MarkSample mark="disc" className={styles.hollow ?? ""} /> left out
        </li>
      ) : null}
    </ul>
  );
}
