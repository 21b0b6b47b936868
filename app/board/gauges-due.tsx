import { use } from "react";
import type { GaugeDue } from "../../lib/board/gauges-due";
import { Link } from "../fittings/link";
import { words } from "../language/language";
import styles from "./board.module.css";
import { gaugeDueWords } from "./load-gauges";

/** Gauges whose calibration is due, as rows of the band Watch. */
export function GaugesDue({ gauges }: { gauges: readonly GaugeDue[] }) {
  const { board } = use(words());
  return gauges.map((gauge) => (
    <li key={`gauge ${gauge.id}`} className={styles.gaugeRow}>
      <Link href={`/gauges/${gauge.id}`}>{board.gauge(gauge.code)}</Link>
      <p className={styles.reason}>{gaugeDueWords(gauge, board)}</p>
    </li>
  ));
}
