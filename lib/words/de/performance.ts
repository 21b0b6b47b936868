import { counted } from "../../format/numbers";
import type { performance as english } from "../en/performance";

export const performance = {
  title: "Auswertung der Alarme",
  purpose:
    "Ob die Menschen mit den Alarmen mitkommen, wie lange diese warten und welche Regeln oder Merkmale weniger geben könnten.",
  window: (shifts: number) =>
    `{from} bis {to}, ${counted(shifts, "gearbeitete Schicht", "gearbeitete Schichten")}`,
  toBudget: "Alarmhaushalt",
  lookingBack: "Zeitraum",
  days: (days: number) => `${days} Tage`,
  people: "Personen, die gleichzeitig Alarme annehmen",
  show: "Anzeigen",
  noFigures: "Noch keine Zahlen",
  nothingMeasured: (days: number) =>
    `In diesen ${days} Tagen wurde in keiner Schicht der Einstellungen gemessen; es gibt also keine Laufzeit, durch die zu teilen wäre. Zu reparieren ist nichts.`,
  rates: "Häufigkeit und Wartezeiten",
  raised: "Ausgelöste Alarme",
  perShift: (count: string) => `${count} je gearbeitete Schicht`,
  perHour: "Je Person und Stunde",
  operators: (count: number, hours: string) =>
    `${count === 1 ? "eine Person nimmt" : `${count} Personen nehmen`} sie an, ${hours} h gearbeitet`,
  toAcknowledge: "Bis zum Quittieren",
  toClose: "Bis zum Schließen",
  noneYet: "noch keiner",
  median: (count: number, ninety: string) => `Median von ${count}; 90 % innerhalb von ${ninety}`,
  levels: {
    acceptable: "Damit kommt man mit.",
    heavy: "Viel Luft bleibt nicht: Unten steht, wo es weniger sein könnten.",
    "too many":
      "Unter so vielen gehen die echten unter: Unten steht, wo es weniger sein könnten; oder teilen Sie sie auf.",
  },
  standard: (acceptable: number, most: number) =>
    `ISA-18.2 (aus dem Gedächtnis) nennt ${acceptable} in der Stunde für eine Person als sehr wahrscheinlich annehmbar und ${most} als das Höchste, was zu bewältigen ist, im Mittel; wo ein Alarm einen Gang zur Maschine bedeutet, ist es weniger.`,
  unanswered: (count: number) =>
    count === 0
      ? "Alle wurden quittiert."
      : `${count} sind noch nicht quittiert und nicht in den Wartezeiten.`,
  frequent: "Die zehn häufigsten",
  frequentPurpose:
    "Durch Zufall erwartet: was die geltenden Regeln ergeben, wo sich nichts verschoben hat, aus ihrer mittleren Lauflänge und der Messhäufigkeit. Viel mehr als das sind echte, oder die Grenzen passen nicht mehr.",
  frequentCaption: (count: number) =>
    `Merkmale nach ihren Alarmen; ${counted(count, "Alarm", "Alarme")} insgesamt`,
  noneRaised: "In diesen Tagen wurde kein Alarm ausgelöst",
  heads: {
    feature: "Merkmal",
    raised: "Ausgelöst",
    share: "Anteil",
    noCause: "Ohne Ursache",
    expected: "Durch Zufall erwartet",
    plan: "Geltende Regeln",
    best: "Spart am meisten",
    saved: "Weniger",
  },
  stale: "Lange offen und zurückgestellt",
  stalePurpose:
    "Lange offen: seit mehr als einem Tag außerhalb (ISA-18.2, aus dem Gedächtnis). Ein Alarm, der Tage steht, lehrt wegzusehen.",
  none: "Keine",
  outSince: (time: string) => `außerhalb seit {since} (${time})`,
  until: "bis {until}",
  fewer: "Wo es weniger sein könnten",
  fewerPurpose:
    "Für jeden Plan die Regel neben den Grenzen, deren Fehlen in diesen Tagen am meisten Fehlalarme sparte. Sie zu streichen heißt auch weniger zu bemerken: Der Alarmhaushalt zeigt, um wie viel später.",
  plansCaption: "Pläne nach dem, was eine Regel weniger spart",
  notMeasured: "In diesen Tagen wurde nichts gemessen",
  features: (count: number) => counted(count, "Merkmal", "Merkmale"),
  onlyLimits: "es gelten nur die Grenzen",
  inVain: (counts: { noCause: number; raised: number; expected: string }) =>
    `Am häufigsten vergeblich gesucht wurde bei {feature}: In ${counts.noCause} von ${counts.raised} Alarmen fand sich keine Ursache, und ${counts.expected} sind durch Zufall zu erwarten. Sind es viel mehr, so passen die Grenzen vielleicht nicht mehr zum Prozess: Wählen Sie auf der Regelkarte einen neuen Zeitraum für sie.`,
  gone: "ein Merkmal, das es nicht mehr gibt",
  sets: {
    limits: "nur Grenzen",
    rules: (count: number) => counted(count, "Regel", "Regeln"),
  },
} satisfies typeof english;
