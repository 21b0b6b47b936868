import type { fittings as english } from "../en/fittings";

export const fittings = {
  working: "Wird ausgeführt …",
  givingUp: "Wird aufgegeben …",
  howFar: "Wie weit es ist",
  giveUp: "Aufgeben",
  beginning: "Beginnt …",
  doneOf: (done: number, all: number) => `${done} von ${all}`,
  asRemark: "Als Bemerkung behalten",
  close: "Schließen",
  whoseName: "Wessen Namen es trägt",
  whoActs: "Wer handelt",
  chooseName: "Namen wählen",
  pin: "PIN",
  newPassword: { label: "Passwort", hint: "Mindestens 8 Zeichen.", again: "Passwort noch einmal" },
  whatIsThis: "Was ist das?",
  keep: {
    picture: "Bild",
    copy: "Kopieren",
    copyOf: (title) => `Das Bild kopieren: ${title}`,
    fileOf: (kind, title) => `${kind}-Datei des Bildes: ${title}`,
    tableOf: (caption) => `CSV-Datei der Tabelle: ${caption}`,
    saved: (name) => `${name} ist gespeichert.`,
    copied: "Das Bild ist kopiert.",
    notCopied:
      "Nichts kopiert: Dieser Browser erlaubt es nur unter einer sicheren Adresse (https). Speichern Sie das Bild stattdessen.",
    notSaved: "Nichts gespeichert: Der Browser konnte das Bild nicht zeichnen. Speichern Sie es als SVG.",
  },
  forget: "Vergessen",
  strip: {
    noSubgroups: "Noch keine Stichproben.",
    newest: (mean: string, side: "above" | "below" | null) =>
      `Neuester Mittelwert ${mean}${side === null ? "" : `, ${side === "above" ? "oberhalb" : "unterhalb"} der Toleranz`}.`,
    tolerance: (words: string) => `Toleranz ${words}.`,
    noTolerance: "Es ist keine Toleranz angegeben.",
    limits: (words: string) => `Eingriffsgrenzen ${words}.`,
    range: (count: number, lowest: string, highest: string) =>
      `Die letzten ${count} Mittelwerte liegen zwischen ${lowest} und ${highest}.`,
    counts: (newest: string, count: number, lowest: string, highest: string) =>
      `Anzahlen, in Sigma der jeweiligen Stichprobe von der Mittellinie: die neueste ${newest}, die letzten ${count} zwischen ${lowest} und ${highest}; Eingriffsgrenzen -3 bis 3.`,
  },
  unanswered: {
    unheard:
      "Keine Antwort vom Server; ob dies gespeichert wurde, ist nicht bekannt. Ihre Eingabe steht noch hier: Sehen Sie, ob der Server erreicht wird und ob es gespeichert ist, und senden Sie es sonst noch einmal.",
    renewed:
      "Nichts gespeichert: Das Programm wurde erneuert, seit diese Seite geöffnet wurde. Ihre Eingabe steht noch hier: Kopieren Sie, was lange zu tippen war, laden Sie die Seite neu und geben Sie es dort ein.",
    notStored: (why: string): string => `${why} Ihre Eingabe steht noch hier; senden Sie sie dann.`,
    broken: (digest: string): string =>
      `Ein Fehler des Programms, nicht Ihrer Daten; ob dies gespeichert wurde, ist nicht bekannt. Ihre Eingabe steht noch hier: Sehen Sie nach, ob es gespeichert ist, und senden Sie es sonst noch einmal. Wer den Server betreut, findet den Grund in dessen Protokoll unter ${digest}.`,
  },
  notStored: {
    busy: "Nichts gespeichert: Eine andere Änderung, etwa eine lange Annahme, hielt die Daten eine Minute lang fest. Versuchen Sie es noch einmal, wenn sie durch ist.",
    full: "Nichts gespeichert: Der Datenträger ist voll. Schaffen Sie dort Platz; alles früher Gespeicherte ist noch da.",
    readOnly:
      "Nichts gespeichert: Dort kann nur gelesen werden. Geben Sie dem Programm das Recht zu schreiben, oder dem Datenträger seines zurück; das Gespeicherte ist noch da.",
    broken:
      "Nichts gespeichert: Der Datenträger nahm es nicht an. Sehen Sie nach ihm; lassen Sie verify laufen, wenn er wieder in Ordnung ist.",
  },
  seeFields: "Nichts gespeichert: Sehen Sie die unten markierten Felder an.",
  notNumber: (typed: string, example: string) =>
    `„${typed}“ ist keine Zahl. Schreiben Sie sie wie ${example.replace(".", ",")}.`,
  fault: {
    notSaved: "Nichts gespeichert",
    notTaken: "Der Ort, an dem die Daten liegen, nimmt sie nicht an",
    back: "Zurück zur Seite",
    sendAgain: "Was Sie eingegeben hatten, muss noch einmal gesendet werden, wenn das behoben ist.",
    title: "Diese Seite konnte nicht gezeigt werden",
    ours: "Ein Fehler des Programms, nicht Ihrer Daten",
    again: "Noch einmal versuchen",
    toBoard: "Zur Schichttafel",
    whole:
      "Eine Seite zu zeigen speichert nichts. Hatten Sie gerade ein Formular gesendet, so sehen Sie auf dessen Seite nach, bevor Sie es noch einmal senden: Eine Änderung wird ganz oder gar nicht gespeichert.",
    number:
      "Nennen Sie der Person, die den Server betreut, diese Nummer; unter ihr steht der Grund im Protokoll:",
  },
} satisfies typeof english;
