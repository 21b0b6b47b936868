import { counted, whole } from "../../format/numbers";
import type { intake as english } from "../en/intake";

const files = (count: number) => counted(count, "Datei", "Dateien");

export const intake = {
  title: "Datenannahme",
  purpose:
    "Hier kommen Messungen herein. Eine schlechte Zeile hält nie eine Datei auf, und jede Annahme lässt sich rückgängig machen.",
  toBench: "Werte am Messplatz eingeben",
  onlyEngineers:
    "Dateien annehmen darf die Rolle Technik. Was angenommen wurde und wie es ausging, steht unten.",
  history: "Verlauf",
  readingHistory: "Der Verlauf wird gelesen.",
  none: "Noch ist keine Datei hereingekommen",
  noneMayBring:
    "Legen Sie oben eine ab. Eine Datei im einfachen Aufbau braucht keine Zuordnung; jede andere wird einmal zugeordnet.",
  noneMayNot: "Die erste nimmt die Technik an.",
  showLatest: (count: number) => `Die neuesten ${whole(count)} zeigen`,
  help: {
    toTry: "Dateien zum Ausprobieren",
    toTryWords:
      "Die Demo steht an einem Montagmorgen; die Dateien von Freitag und Samstag sind noch anzunehmen.",
    shows: {
      "line-b-friday.csv": "an ihrer Kopfzeile erkannt, sofort bereit",
      "cell-a-friday.csv":
        "eine Messung je Zeile unter nie gesehenen Überschriften; drei Zeilen sind schlecht",
      "cell-a-saturday.csv": "ein Teil je Zeile, je Merkmal eine Spalte, Dezimalkommas",
    },
    own: "Eine eigene Datei mitbringen",
    ownWords:
      "Jede CSV- oder XLSX-Datei mit einer Kopfzeile geht, und QIF-Ergebnisse (ISO 23952), wie sie sind. Eine Datei mit diesen Spaltennamen braucht keine Zuordnung; bei jeder anderen werden die Spalten einmal zugeordnet. {sample}.",
    sample: "Ein Muster herunterladen",
    byItself: "Von selbst herausgefunden",
    found: [
      "Trennzeichen, Dezimalzeichen, Zeichensatz und ob Tag oder Monat zuerst steht, aus den Zeilen selbst",
      "übliche Überschriften wie „USL“, „Batch“, „Serial no“, „Messwert“, mit Einheiten in Klammern",
      "ein Teil je Zeile, mit einer Spalte je Merkmal",
      "neue Teile und Merkmale, mit Karte, Stichprobenumfang und Art aus den Daten vorgeschlagen",
      "Messungen, die schon da sind, verspätete und Berichtigungen, nach Merkmal, Teil und Zeit",
    ],
    units:
      "Zoll werden mit genau 25,4 umgerechnet, wo das Merkmal in mm steht. Was eine Datei über die Toleranz eines bekannten Merkmals sagt, ändert nichts: Der Prüfplan gilt, und der Unterschied wird vermerkt.",
  },
  table: {
    heads: {
      file: "Datei",
      when: "Wann",
      by: "Wer",
      state: "Zustand",
      accepted: "Gespeichert",
      refused: "Abgewiesen",
      duplicates: "Schon da",
      corrections: "Berichtigt",
      late: "Verspätet",
      signals: "Signale",
      alarms: "Alarme",
    },
    caption: files,
    latest: (count: number) => `Die neuesten ${files(count)}`,
    folder: "beobachteter Ordner",
    commandLine: "Kommandozeile",
  },
  page: {
    tab: (id: string) => `Annahme ${id}`,
    notices: (count: number) => `${counted(count, "Hinweis", "Hinweise")} zu Zeilen, die angenommen wurden`,
    refused: "Abgewiesene Zeilen",
    download: "Alle als CSV herunterladen",
    correct:
      "Berichtigen Sie sie an ihrer Quelle und nehmen Sie die Datei noch einmal an: Was schon da ist, wird nicht verdoppelt. In der heruntergeladenen Datei beginnen Zellen, die eine Tabellenkalkulation als Formeln ausführen würde, mit einem Apostroph.",
    everyRow: "Jede Zeile ließ sich annehmen.",
    notRead: "Die Datei wurde nicht bis zum Ende gelesen; keine Zeile wurde also beurteilt.",
    touched: "Merkmale, die sie berührt hat",
    features: (count: number) => counted(count, "Merkmal", "Merkmale"),
    heads: {
      part: "Teil",
      feature: "Merkmal",
      added: "Gespeichert",
      corrected: "Berichtigt",
      alarm: "Alarm jetzt",
    },
    noAlarm: "keiner",
    undone: (count: number) =>
      `Rückgängig gemacht. Ihre ${counted(count, "Messung wurde", "Messungen wurden")} zurückgenommen; was Menschen schrieben, bleibt.`,
    running: "Sie wird gerade gelesen.",
    cancelled: "Abgebrochen. Nichts davon wurde gespeichert.",
    nothing: "Nichts davon wurde gespeichert.",
    by: "{when} durch {by}",
    undoneAt: "rückgängig gemacht {when}",
    savedMapping: (name: string) => `gelesen nach gespeicherter Zuordnung „${name}“`,
    ownMapping: "gelesen mit einer Zuordnung, die nicht gespeichert wurde",
    refusedRows: (count: number) => counted(count, "abgewiesene Zeile", "abgewiesene Zeilen"),
    firstRefused: (shown: number, all: number) =>
      `Die ersten ${whole(shown)} von ${counted(all, "abgewiesenen Zeile", "abgewiesenen Zeilen")}`,
    kept: (count: number) => `; die ersten ${whole(count)} wurden zum Herunterladen aufbewahrt`,
  },
  folder: {
    title: "Beobachteter Ordner",
    none: "Keiner ist gesetzt. Starten Sie das Programm mit {setting}, und Dateien, die dorthin gelegt werden, werden von selbst angenommen.",
    words:
      "Dateien, die in {folder} gelegt werden, werden von selbst angenommen und dann darin nach {done} oder {refused} verschoben.",
    another: "Ein anderer Prozess an dieser Datenbank beobachtet ihn.",
    lastLook: "Zuletzt nachgesehen {when}.",
    broken: "Der Ordner ist nicht zu gebrauchen",
    notRead: "Er lässt sich nicht lesen.",
    stay: "Dateien bleiben, wo sie sind, bis das behoben ist; alle zwei Sekunden wird es wieder versucht.",
    counts: (waiting: number, done: number, refused: number) =>
      `${waiting === 0 ? "Nichts wartet" : `${waiting === 1 ? "1 Datei wartet" : `${waiting} Dateien warten`}`}, ${done} fertig, ${refused} abgewiesen.`,
    latestRefused: "Zuletzt abgewiesene Dateien",
    noReason: "Der Grund, der daneben lag, ist fort.",
  },
  posts: {
    title: "Maschinen, die senden",
    words:
      "Eine Maschine mit einem Schlüssel sendet Teile an {address}; sie werden beurteilt, bevor sie ihre Antwort bekommt.",
    toKeys: "Schlüssel machen und beenden",
    admin: "Schlüssel macht und beendet die Verwaltung.",
    caption: (count: number) =>
      count === 1 ? "Die neueste Anfrage" : `Die neuesten ${count} Anfragen, nach Schlüssel`,
    none: "Noch hat keine Maschine gesendet.",
    heads: {
      name: "Wer",
      requests: "Anfragen",
      accepted: "Gespeichert",
      refused: "Abgewiesen",
      alarms: "Alarme",
      latest: "Neueste",
    },
  },
  answers: {
    gone: "Die Datei ist nicht mehr hier: Sie wurde angenommen, verworfen oder eine Stunde lang nicht angesehen. Legen Sie sie noch einmal ab.",
    notStored: (why: string) => `Nichts gespeichert: ${why}`,
    notSaved: (why: string) => `Nichts gespeichert: ${why}`,
    noIntake: "Diese Annahme gibt es nicht.",
    undoNoIntake: "Nichts rückgängig gemacht: Diese Annahme gibt es nicht.",
    undoState: (state: string) => `Nichts rückgängig gemacht: Der Zustand der Annahme ist „${state}“.`,
    noJob: "Nichts abgebrochen: Diesen Vorgang gibt es nicht mehr.",
    noCancel:
      "Nichts abgebrochen: Ein begonnenes Rückgängigmachen ist ein einziger Schritt und endet von selbst.",
    ended: "Nichts abgebrochen: Er war schon zu Ende.",
    taking: "Nichts begonnen: Diese Datei wird schon angenommen.",
    notStarted: (why: string) => `Nichts begonnen: ${why}`,
    otherLayout: (name: string) =>
      `Nichts begonnen: „${name}“ ist die gespeicherte Zuordnung eines anderen Aufbaus. Wählen Sie einen anderen Namen, oder lassen Sie ihn leer.`,
    discard: "Nichts verworfen: Die Datei wird gerade angenommen. Brechen Sie das zuerst ab.",
    noName: "Nichts empfangen: Die Anfrage nennt keine Datei.",
    empty: "Nichts empfangen: Die Datei ist leer, 0 Byte. Exportieren Sie sie noch einmal.",
  },
} satisfies typeof english;
