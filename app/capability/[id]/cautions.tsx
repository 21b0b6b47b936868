import styles from "./detail.module.css";

/** What an index does not say, for whoever passes it on. */
export function Cautions({ confidence }: { confidence: string }) {
  return (
    <ul className={styles.cautions}>
      <li>
        Capability is no acceptance of product and no proof of safety or airworthiness. Pieces are accepted by
        the drawing, the customer's requirements and the shop's nonconformance procedure, under its qualified
        people.
      </li>
      <li>
        An index speaks of the readings in its window. It holds for the next ones as long as the process stays
        as it was: that is what the chart watches.
      </li>
      <li>
        The lower bound covers the chance in which pieces were measured, at {confidence} confidence. It does
        not cover a wrong gauge, a wrong datum or readings that were never taken.
      </li>
      <li>
        The spread shown is that of the process and the gauge together; a better gauge would show the same
        pieces with higher indices.
      </li>
      <li>
        Fractions by the normal curve far below what could be counted are a calculation on an assumed shape,
        not something anybody has seen.
      </li>
    </ul>
  );
}
