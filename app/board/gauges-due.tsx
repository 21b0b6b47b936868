import type { GaugeDue } from "../../lib/board/gauges-due";
import { counted } from "../../lib/format/numbers";
import { calibrationWords } from "../../lib/measurement-systems/calibration";
import { Link } from "../fittings/link";
import styles from "./board.module.css";

/** Gauges whose calibration is due, as rows of the band Watch. */
export function GaugesDue({ gauges }: { gauges: readonly GaugeDue[] }) {
  return gauges.map(({ id, code, standing, features }) => (
    <li key={`gauge ${id}`} className={styles.gaugeRow}>
      <Link href={`/gauges/${id}`}>Gauge {code}</Link>
      <p className={styles.reason}>
        Calibration {calibrationWords(standing)}; it measures {counted(features, "feature")}.
      </p>
    </li>
  ));
}
