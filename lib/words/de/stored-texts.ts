import type { storedTexts as english } from "../en/stored-texts";
import { type Pairs, storedTextsBy } from "../stored-text";
import { desk } from "./desk";
import { FILE_TEXTS } from "./file-texts";
import { ROW_TEXTS } from "./row-texts";

/** Sentences around others, and how an intake ended. */
const AROUND: Pairs = [
  ["Line {line}: {rest}", "Zeile {line}: {rest}"],
  ["Nothing saved: row {line}, {field}: {rest}", "Nichts gespeichert: Zeile {line}, {field}: {rest}"],
  ["Nothing saved: row {line}: {rest}", "Nichts gespeichert: Zeile {line}: {rest}"],
  [
    "Nothing of this file was stored, through a fault of the program: {why}. Try it once more; if it happens again, ask for help with this message.",
    "Nichts aus dieser Datei wurde gespeichert, durch einen Fehler des Programms: {why}. Versuchen Sie es noch einmal; geschieht es wieder, fragen Sie mit dieser Meldung um Hilfe.",
  ],
  [
    "Nothing was taken back, through a fault of the program: {why}. Try it once more; if it happens again, ask for help with this message.",
    "Nichts wurde zurückgenommen, durch einen Fehler des Programms: {why}. Versuchen Sie es noch einmal; geschieht es wieder, fragen Sie mit dieser Meldung um Hilfe.",
  ],
  [
    "Nothing of this file was stored, through a fault of the program: {why}",
    "Nichts aus dieser Datei wurde gespeichert, durch einen Fehler des Programms: {why}",
  ],
  [
    "Nothing stored: {rest} Drop the file on the page Intake, tell there once which column is which and save it under a name; then put this file back into the folder.",
    "Nichts gespeichert: {rest} Legen Sie die Datei auf der Seite Datenannahme ab, sagen Sie dort einmal, welche Spalte welche ist, und speichern Sie das unter einem Namen; legen Sie diese Datei dann wieder in den Ordner.",
  ],
  ["this layout leaves open which column is which.", "Dieser Aufbau lässt offen, welche Spalte welche ist."],
  ["Nothing stored: {rest}", "Nichts gespeichert: {rest}"],
  [
    "Nothing changed: intake {id} is not one that can be undone.",
    "Nichts geändert: Annahme {id} lässt sich nicht rückgängig machen.",
  ],
  [
    "Undone. {count} {measurements} taken back. The features were judged anew.",
    "Rückgängig gemacht: {count} {measurements} zurückgenommen. Die Merkmale wurden neu beurteilt.",
  ],
  [
    "Undone. {count} {measurements} taken back. {restored} corrected {values} came back as before. The features were judged anew.",
    "Rückgängig gemacht: {count} {measurements} zurückgenommen, {restored} {values} wiederhergestellt. Die Merkmale wurden neu beurteilt.",
  ],
  [
    "All {count} measurements were there already, nothing was added.",
    "Alle {count} Messungen waren schon da; nichts kam hinzu.",
  ],
  [
    "The same {what} as intake {id}: all {count} measurements were there already, nothing was added.",
    "{what} wie bei Annahme {id}: Alle {count} Messungen waren schon da; nichts kam hinzu.",
  ],
  [
    "The same {what} as intake {id}: all {count} measurements were there already, nothing was added. {corrected} of them were corrected since and keep the corrected value; undo the intake that corrected them to have this {again}'s values back.",
    "{what} wie bei Annahme {id}: Alle {count} Messungen waren schon da; nichts kam hinzu. {corrected} davon wurden seither berichtigt und behalten den berichtigten Wert; machen Sie die Annahme rückgängig, die sie berichtigt hat, um die früheren Werte wiederzubekommen.",
  ],
];

export const storedTexts = {
  say: storedTextsBy([...AROUND, ...ROW_TEXTS, ...FILE_TEXTS], {
    field: {
      ...Object.fromEntries(Object.entries(desk.tidy.columns).map(([name, { label }]) => [name, label])),
      piece: "Seriennummer des Teils",
      row: desk.refusals.row,
      time: "Zeit",
    },
    quantity: {
      nominal: "das Nennmaß",
      "lower tolerance limit": "die untere Toleranzgrenze",
      "upper tolerance limit": "die obere Toleranzgrenze",
      length: "die Länge",
      expansion: "den Ausdehnungskoeffizienten",
    },
    none: { none: "keine Angabe" },
    lower: { none: "keine" },
    upper: { none: "keine" },
    what: { file: "Dieselbe Datei", request: "Dieselbe Anfrage", sheet: "Dasselbe Blatt" },
    measurements: { measurement: "Messung", measurements: "Messungen" },
    values: { value: "berichtigter Wert", values: "berichtigte Werte" },
    features: { feature: "Merkmal", features: "Merkmalen" },
    example: {
      "31.01.2024 14:05 or 2024-01-31 14:05": "31.01.2024 14:05 oder 2024-01-31 14:05",
      "1/31/2024 2:05 PM or 2024-01-31 14:05": "1/31/2024 2:05 PM oder 2024-01-31 14:05",
      "45322.5 or 2024-01-31 14:05": "45322.5 oder 2024-01-31 14:05",
    },
    whose: {
      "the time of the piece's inspection": "die Zeit der Prüfung des Teils",
      "the time of the inspection": "die Zeit der Prüfung",
      "the date of the report": "das Datum des Berichts",
      "the time at which the document was created": "die Zeit, zu der das Dokument erzeugt wurde",
    },
  }),
} satisfies typeof english;
