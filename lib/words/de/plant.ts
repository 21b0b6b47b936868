import type { plant as english } from "../en/plant";

export const plant = {
  title: "Werk",
  open: "Einheiten, Zahlen und Sprache",
  people: "Personen",
  purpose: "Wie jede Seite dieses Werks Längen und Zahlen zeigt. Was gespeichert ist, ändert sich nicht.",
  lengths: {
    legend: "Längen",
    label: "Längen zeigen in",
    choices: {
      plan: "der Einheit des Prüfplans",
      mm: "Millimetern",
      in: "Zoll",
    },
    hint: "1 in ist genau 25,4 mm. Gerundet wird so, dass kein Schritt eines Messmittels verloren geht: 0,001 mm werden auf 0,00001 in gezeigt. Winkel und Anzahlen bleiben, wie sie sind.",
  },
  figures: {
    legend: "Zahlen",
    decimal: "Dezimalstellen nach",
    decimals: {
      language: "dem Zeichen der Sprache",
      point: "einem Punkt: 25.003",
      comma: "einem Komma: 25,003",
    },
    grouping: "Tausender getrennt durch",
    groupings: {
      language: "das Zeichen der Sprache",
      none: "nichts: 12500",
      space: "ein schmales Leerzeichen: 12 500",
      mark: "Komma oder Punkt, je nachdem, was nicht vor den Dezimalstellen steht",
    },
    hint: "Ab fünf Stellen. Ein schmales Leerzeichen wird nie für ein Dezimalzeichen gehalten.",
  },
  language: {
    legend: "Sprache",
    label: "Sprechen",
    hint: "Zu allen, die keine gewählt haben.",
    choices: { en: "English", de: "Deutsch" },
  },
  asDrawn: "auf der Zeichnung {tolerance}",
  save: "Speichern",
  saving: "Wird gespeichert …",
  saved: "Gespeichert. Seiten zeigen es ab dem nächsten Aufruf.",
  incomplete: "Nichts gespeichert: Das Formular war unvollständig. Bitte die Seite neu laden.",
  sample: {
    title: "So liest es sich",
    caption: "Beispiele von Zahlen, wie Seiten sie jetzt zeigen",
    heads: { what: "Was", shown: "Auf Seiten" },
    rows: {
      tolerance: "Toleranz einer Bohrung, Zeichnung in mm, Messmittel auf 0,001 mm",
      bore: "ein Messwert davon",
      slot: "ein Messwert einer Nut, Zeichnung in Zoll, Messmittel auf 0,0001 in",
      count: "eine Anzahl",
      index: "ein Kennwert",
    },
  },
  stays: {
    title: "Was die Einheit des Merkmals behält",
    words:
      "Der Prüfplan und jedes Feld, in das etwas getippt wird, mit der Einheit daneben; Messdateien; Nachweise mit PDF, Arbeitsmappe und CSV, denn ein Kunde vergleicht sie mit der Zeichnung. Dateien und englische Nachweise behalten auch den Dezimalpunkt; deutsche haben das Komma. In Feldern ist ein einzelnes Komma oder ein einzelner Punkt immer das Dezimalzeichen, und eine Zahl mit beiden wird abgelehnt.",
  },
} satisfies typeof english;
