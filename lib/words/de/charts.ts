import type { charts as english } from "../en/charts";

export const charts = {
  kinds: {
    "xbar-r": "Mittelwerte und Spannweiten",
    "xbar-s": "Mittelwerte und Standardabweichungen",
    "i-mr": "Einzelwerte und gleitende Spannweiten",
  },
  of: (chart: string, size: number) => `${chart} aus ${size}`,
  counts: {
    p: "Anteil fehlerhafter Einheiten (p)",
    np: "Anzahl fehlerhafter Einheiten (np)",
    c: "Anzahl der Fehler (c)",
    u: "Fehler je Einheit (u)",
  },
  among: (chart: string, size: number) => `${chart} unter ${size}`,
  on: (chart: string, size: number) => `${chart} an ${size}`,
  varying: (chart: string) => `${chart}, wechselnder Prüfumfang`,
  short: { "xbar-r": "Mittelwerte, Spannweiten", "xbar-s": "Mittelwerte, s", "i-mr": "Einzelwerte" },
  features: {
    size: "Maß",
    position: "Position",
    form: "Form",
    orientation: "Richtung",
    profile: "Profil",
    runout: "Lauf",
    other: "anderes",
  },
  headStart: (size: string) => `, Startwert ${size}`,
} satisfies typeof english;
