import type { record as english } from "../en/record";

export const record = {
  title: "Protokoll",
  purpose:
    "Jede Änderung, die ein Mensch, eine Maschine oder das Programm gemacht hat, in den Worten des Programms, auf Englisch. Zeilen kommen nur hinzu; jede trägt die Prüfsumme der vorigen, sodass ein Eingriff oder eine Lücke auffällt.",
  download: "Als CSV herunterladen",
  filter: {
    words: "Wörter",
    wordsHint: "In dem, was getan wurde, woran oder warum.",
    who: "Wer",
    everybody: "alle",
    from: "Von",
    to: "Bis",
    toHint: "Beide Tage eingeschlossen.",
    search: "Suchen",
    showAll: "Alle zeigen",
  },
  caption: "Zeilen des Protokolls, die neueste zuerst",
  none: "Keine Zeile passt",
  noneWhy: "Nehmen Sie ein Wort weg, oder wählen Sie einen längeren Zeitraum.",
  heads: {
    line: "Zeile",
    when: "Wann",
    who: "Wer",
    what: "Was",
    change: "Vorher und nachher",
    why: "Warum",
  },
  newest: "Neueste Zeilen",
  older: "Ältere Zeilen",
  entered: "eingetragen",
  changed: "geändert",
  inLine: (line: number) => ` in Zeile ${line}`,
  before: (value: string) => `Vorher: ${value}`,
  after: (value: string) => `Nachher: ${value}`,
} satisfies typeof english;
