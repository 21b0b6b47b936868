import { counted } from "../../format/numbers";

type Parts = Record<"weekday" | "day" | "month" | "year" | "hour" | "minute" | "second", string>;

/** Moments and lengths of time. `locale` names months and days of the week. */
export const times = {
  locale: "en-GB",
  moment: ({ weekday, day, month, year, hour, minute }: Parts): string =>
    `${weekday} ${day} ${month} ${year}, ${hour}:${minute}`,
  shortMoment: ({ day, month, hour, minute }: Parts): string => `${day} ${month}, ${hour}:${minute}`,
  day: ({ day, month, year }: Parts): string => `${day} ${month} ${year}`,
  exactMoment: ({ weekday, day, month, year, hour, minute, second }: Parts): string =>
    `${weekday} ${day} ${month} ${year}, ${hour}:${minute}:${second}`,
  /** Lengths as they stand alone. `ago` and `ahead` decline their own. */
  length: (count: number, unit: "second" | "minute" | "hour" | "day" | "week" | "year"): string => {
    if (unit === "second") return `${count} s`;
    if (unit === "minute") return `${count} min`;
    return unit === "hour" ? `${count} h` : counted(count, unit);
  },
  justNow: "just now",
  ago: (length: string): string => `${length} ago`,
  ahead: (length: string): string => `in ${length}`,
};
