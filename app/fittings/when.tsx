import { useCommonWords } from "#common-words";
import {
  agoWords,
  dayIn,
  exactMomentIn,
  momentIn,
  shortMomentIn,
  type TimeWords,
} from "../../lib/format/times";

/**
 * An instant (UTC ms) in the plant's zone. Its exact moment is always in the title.
 *
 * `as`: "moment" Mon 11 Nov 2024, 07:10 · "short" 11 Nov, 07:10 · "day" 11 Nov 2024 · "ago" 3 h ago.
 */
export function When({
  at,
  zone,
  as = "moment",
  now = Date.now(),
}: {
  at: number | null | undefined;
  zone: string;
  as?: "moment" | "short" | "day" | "ago";
  now?: number;
}) {
  const { times } = useCommonWords();
  if (at === null || at === undefined) return <span>–</span>;
  return (
    <time dateTime={new Date(at).toISOString()} title={exactMomentIn(at, zone, times)}>
      {shown(at, { zone, as, now, times })}
    </time>
  );
}

function shown(
  at: number,
  { zone, as, now, times }: { zone: string; as: string; now: number; times: TimeWords },
): string {
  switch (as) {
    case "ago":
      return agoWords(at, now, times);
    case "day":
      return dayIn(at, zone, times);
    case "short":
      return shortMomentIn(at, zone, times);
    default:
      return momentIn(at, zone, times);
  }
}
