import { Link } from "../fittings/link";
import styles from "./board.module.css";

/** A gauge whose calibration is due, ready to be shown. */
export type ShownGauge = { id: number; name: string; words: string };

/** As rows of the band Watch. */
export function GaugesDue({ gauges }: { gauges: readonly ShownGauge[] }) {
  return gauges.map((gauge) => (
    <li key={`gauge ${gauge.id}`} className={styles.gaugeRow}>
      <Link href={`/gauges/${gauge.id}`}>{gauge.name}</Link>
      <p className={styles.reason}>{gauge.words}</p>
    </li>
  ));
}
