import { counted, whole } from "../../format/numbers";
import type { assumptions as english } from "../en/assumptions";

export const assumptions = {
  title: "Was sie voraussetzt",
  standings: { yes: "trifft zu", no: "trifft nicht zu", open: "nicht bekannt" },
  p: (figure: string) => `p = ${figure}`,
  pBelow: (figure: string) => `p unter ${figure}`,
  enough: {
    name: "Die Grenzen beruhen auf genug Stichproben",
    none: "Es gibt noch keine Grenzen.",
    frozen: (least: number) => `Festgelegte brauchen mindestens ${least}.`,
    trial: (count: number, least: number) =>
      `Bisher ${counted(count, "Stichprobe", "Stichproben")}; ${least} sind nötig, und diese Grenzen sind vorläufig, bis jemand sie festlegt.`,
  },
  tooFewPoints: "Zu wenige Punkte, um es zu sagen, oder keine Streuung.",
  independent: {
    name: "Die Punkte sind unabhängig von ihren Nachbarn",
    figures: (r: string, count: number, p: string) =>
      `Korrelation der Nachbarn r = ${r} in ${whole(count)} Punkten, ${p} (NIST/SEMATECH e-Handbook 1.3.5.12).`,
  },
  normal: {
    readings: "Die Einzelwerte sind normalverteilt",
    means: "Die Mittelwerte sind normalverteilt",
    figures: (A2: string, p: string) => `Anderson-Darling A² = ${A2}, ${p}.`,
    single: " Grenzen für Einzelwerte hängen daran.",
    ofMeans: " Grenzen für Mittelwerte hängen wenig daran, Regeln innerhalb der Grenzen mehr.",
  },
  counts: {
    name: (law: "binomial" | "Poisson") =>
      law === "binomial"
        ? "Die Anzahlen streuen wie binomialverteilte"
        : "Die Anzahlen streuen wie Poisson-verteilte",
    tooFew: "Zu wenige Anzahlen, um es zu sagen.",
    figures: (ratio: string, law: "binomial" | "Poisson", p: string) =>
      `Ihre Varianz ist das ${ratio}-Fache einer ${law === "binomial" ? "Binomialverteilung" : "Poisson-Verteilung"}, ${p}.`,
    clusters: " Fehler treten gehäuft auf, oder ihre Häufigkeit ändert sich von Stichprobe zu Stichprobe.",
    alike:
      " Die Stichproben sind sich ähnlicher, als Zufall ergibt: Werden sie unabhängig voneinander gezählt?",
  },
} satisfies typeof english;
