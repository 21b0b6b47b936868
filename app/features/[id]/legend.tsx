import { fill } from "../../../lib/words/fill";
import styles from "./chart.module.css";
import type { ChartWords } from "./chart-view";
import { MarkSample } from "./marks";
import type { SourceLooks } from "./source-looks";

/** What the marks mean: shapes by standing, or shapes and colours by source. */
export function Legend({
  looks,
  hasExcluded,
  words,
}: {
  looks: SourceLooks | null;
  hasExcluded: boolean;
  words: ChartWords["legend"];
}) {
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
              <MarkSample mark="bar" fill="var(--calm)" /> {fill(words.others, { count: looks.others })}
            </li>
          ) : null}
          <li>
            <MarkSample mark="diamond" className={styles.about ?? ""} /> {words.about}
          </li>
        </>
      ) : (
        <>
          <li>
            <MarkSample mark="disc" className={styles.within ?? ""} /> {words.within}
          </li>
          <li>
            <MarkSample mark="disc" className={styles.member ?? ""} /> {words.pattern}
          </li>
          <li>
            <MarkSample mark="diamond" className={styles.beyond ?? ""} /> {words.beyond}
          </li>
        </>
      )}
      {hasExcluded ? (
        <li>
          <MarkSample mark="disc" className={styles.hollow ?? ""} /> {words.leftOut}
        </li>
      ) : null}
    </ul>
  );
}
