import { use } from "react";
import { latestOf } from "../../../lib/alarms/alarm-event";
import { When } from "../../fittings/when";
import { words } from "../../language/language";
import styles from "../alarm.module.css";
import type { ShownAlarm } from "./load-alarm";

/** Who acknowledged it; as high as the form was, so that nothing moves under somebody's finger. */
export function Seen({ events, zone }: Pick<ShownAlarm, "events"> & { zone: string }) {
  const seen = latestOf(events, "acknowledged");
  if (!seen) return null;
  const { card } = use(words()).alarms;
  return (
    <div className={styles.seen}>
      <p>
        {card.seenBy(seen.by ?? card.somebody)}, <When at={seen.at} zone={zone} as="short" />
      </p>
      {seen.note ? <q>{seen.note}</q> : null}
    </div>
  );
}
