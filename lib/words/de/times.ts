import { counted } from "../../format/numbers";
import type { times as english } from "../en/times";

type Parts = Parameters<typeof english.moment>[0];

const MANY = { day: ["Tag", "Tage"], week: ["Woche", "Wochen"], year: ["Jahr", "Jahre"] } as const;

/** "Tage" ends in n after "vor" and "in": the dative of the plural. */
function dative(length: string): string {
  return length.replace(/\b(Tage|Jahre)$/, "$1n");
}

export const times = {
  locale: "de-DE",
  moment: ({ weekday, day, month, year, hour, minute }: Parts) =>
    `${weekday}, ${day}. ${month} ${year}, ${hour}:${minute}`,
  shortMoment: ({ day, month, hour, minute }: Parts) => `${day}. ${month}, ${hour}:${minute}`,
  day: ({ day, month, year }: Parts) => `${day}. ${month} ${year}`,
  exactMoment: ({ weekday, day, month, year, hour, minute, second }: Parts) =>
    `${weekday}, ${day}. ${month} ${year}, ${hour}:${minute}:${second}`,
  length: (count: number, unit: "second" | "minute" | "hour" | "day" | "week" | "year") => {
    if (unit === "second") return `${count} s`;
    if (unit === "minute") return `${count} min`;
    if (unit === "hour") return `${count} h`;
    const [one, many] = MANY[unit];
    return counted(count, one, many);
  },
  justNow: "gerade eben",
  ago: (length: string) => `vor ${dative(length)}`,
  ahead: (length: string) => `in ${dative(length)}`,
} satisfies typeof english;
