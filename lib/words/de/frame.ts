import type { frame as english } from "../en/frame";

export const frame = {
  description: "Welche Merkmale stabil und fähig sind, was sie verschiebt und was dagegen zu tun ist.",
  skip: "Zum Inhalt springen",
  demo: (moment: string) => `Demo: ein erfundenes Werk. Seine Uhr steht auf ${moment}.`,
  lesson: "Lehrgang: finden Sie, was in ihm nicht stimmt",
  glossary: "Glossar",
  notice:
    "Ein Signal fordert auf, nachzusehen; es entscheidet nicht über Teile. Für die Annahme gelten die Zeichnung, die Anforderungen des Kunden und das Verfahren des Betriebs für fehlerhafte Teile unter seinen befugten Personen. Statistische Fähigkeit ist kein Nachweis von Sicherheit oder Lufttüchtigkeit.",
  signOut: "Abmelden",
  language: "Sprache der Seiten in diesem Browser",
  theme: "Helle oder dunkle Seiten",
  themes: { system: "System", light: "Hell", dark: "Dunkel" },
  rooms: "Bereiche",
  roomNames: {
    "/": "Schichttafel",
    "/alarms": "Alarme",
    "/handover": "Übergabe",
    "/features": "Merkmale",
    "/drift": "Drift",
    "/capability": "Fähigkeit",
    "/gauges": "Messmittel",
    "/intake": "Datenannahme",
    "/plan": "Prüfplan",
    "/record": "Protokoll",
    "/people": "Personen",
  },
  connection: {
    gone: "Keine Verbindung seit {time}. Was hier steht, kann veraltet sein. Es wird von selbst weiter versucht; nichts Gespeichertes geht verloren.",
    signedOut: "Ihre Anmeldung ist abgelaufen; diese Seite ändert sich nicht mehr.",
    signInAgain: "Neu anmelden",
  },
  toBoard: "Zur Schichttafel",
  notHere: {
    tab: "Nicht vorhanden",
    title: "Unter dieser Adresse ist nichts",
    purpose:
      "Der Link ist vielleicht alt, oder das Genannte wurde nie eingegeben. Verloren ging dadurch nichts.",
    search: "Merkmale suchen",
  },
  notYours: {
    tab: "Nicht für Ihre Rolle",
    title: "Diese Seite ist nicht für Ihre Rolle",
    purpose: (name: string, roles: string) =>
      `Sie sind als ${name} angemeldet (${roles}). Nichts wurde gezeigt oder geändert. Wer die Personen verwaltet, kann Ihnen die nötige Rolle geben; oder Sie melden sich mit einem anderen Konto an.`,
    noRole: "keine Rolle",
    another: "Als jemand anders anmelden",
  },
} satisfies typeof english;
