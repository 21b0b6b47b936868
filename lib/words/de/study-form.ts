import type { studyForm as english } from "../en/study-form";
import { storedTexts } from "./stored-texts";

export const studyForm = {
  enter: "Eine Messmitteluntersuchung eingeben",
  enterOf: (gauge: string) => `Eine Untersuchung von ${gauge} eingeben`,
  enterPurpose:
    "Die Messwerte bleiben, wie sie eingegeben wurden; jede Zahl lässt sich aus ihnen wieder berechnen.",
  form: {
    submit: "Diese Untersuchung eingeben",
    working: "Wird berechnet …",
    kinds: {
      crossed: "gekreuzt: mehrere Prüfer, mehrere Teile, mehrere Wiederholungen",
      "type-1": "Typ 1: ein bekanntes Teil, oft gemessen",
      "bias-linearity": "Bias und Linearität: Teile bekannter Größe über den Bereich",
      setup: "Aufbau: ein tragbares Messmittel, neu aufgebaut",
    },
    layouts: {
      crossed:
        "Benennen Sie die Spalten in der ersten Zeile: part, operator, value, und trial, wenn Sie mögen. Oder wie auf Papier: operator, trial und je Teil eine Spalte.",
      "type-1": "Ein Messwert je Zeile, 25 oder mehr.",
      "bias-linearity": "Benennen Sie die Spalten in der ersten Zeile: reference und value.",
      setup:
        "Benennen Sie die Spalten in der ersten Zeile: setup, value, und part, wenn mehrere gemessen wurden.",
    },
    ways: {
      text: "Eine Tabelle einfügen oder tippen",
      sheet: "In ein Blatt tippen",
      file: "Eine Datei nehmen (CSV, XLSX)",
    },
    what: "Was gemacht wurde",
    kind: "Art der Untersuchung",
    madeOn: "Gemacht am",
    on: "Woran",
    onHint: "Ein Merkmal des Prüfplans bringt seine Einheit und Toleranz mit.",
    feature: "Merkmal",
    noFeature: "keines des Prüfplans",
    reference: "Größe des bekannten Teils",
    referenceHint: "Aus seinem Kalibrierschein, in der Einheit der Messwerte.",
    note: "Notiz",
    noteHint: "Wer gemessen hat, wo, bei welcher Temperatur: was man in einem Jahr fragen würde.",
    unit: "Einheit",
    units: { mm: "mm", in: "in", deg: "Grad", none: "ohne Einheit" },
    width: "Breite der Toleranz",
    widthHint: "Obere minus untere Grenze. Leer: Der Anteil an der Toleranz bleibt weg.",
    readings: "Messwerte",
    how: "Wie die Messwerte hereinkommen",
    table: "Tabelle",
    tableHint:
      "Spalten durch Tabulatoren getrennt, wie eine Tabellenkalkulation sie kopiert, oder durch Semikolons oder Kommas. Ein Dezimalkomma geht, wo keine Kommas die Spalten trennen.",
    file: "Datei",
    fileHint: "Ihr erstes Blatt, das etwas enthält. Wird sie abgewiesen, so lässt sie sich hier berichtigen.",
    tooLarge:
      "{name} hat {size} kB; eine Messmitteluntersuchung hat höchstens {most}. Exportieren Sie nur ihre Messwerte.",
    notTaken: "Die Tabelle ließ sich nicht annehmen",
    line: "Zeile {line}: {why}",
    lineColumn: "Zeile {line}, Spalte {column}: {why}",
    sheet: {
      parts: "Teile",
      partsHint: "2 bis 50.",
      operators: "Prüfer",
      operatorsHint: "Namen, durch Kommas getrennt.",
      trials: "Wiederholungen",
      trialsHint: "2 bis 10.",
      corner: "Prüfer, Wiederholung",
      part: "Teil {part}",
      cell: "Teil {part}, Prüfer {operator}, Wiederholung {trial}",
    },
  },
  faults: {
    kind: "Wählen Sie, was gemacht wurde.",
    unit: "Wählen Sie eine Einheit.",
    width: "Die Breite einer Toleranz liegt über 0.",
    feature: "Dieses Merkmal steht nicht im Prüfplan.",
    madeOn: "Geben Sie den Tag ein, an dem sie gemacht wurde.",
    ahead: "Dieser Tag liegt in der Zukunft. Geben Sie die Untersuchung ein, wenn sie gemacht ist.",
    reference: "Geben Sie die Größe des bekannten Teils ein.",
    oneLimit:
      "Die Zeichnung gibt diesem Merkmal nur eine Grenze; es gibt also keine Breite, gegen die zu urteilen wäre.",
    needsWidth: "Eine Untersuchung Typ 1 urteilt gegen eine Toleranz: Geben Sie deren Breite ein.",
  },
  table: {
    empty: "Die Tabelle ist leer: Fügen Sie Messwerte ein, oder tippen Sie sie.",
    long: (rows: number, most: number) =>
      `Die Tabelle hat ${rows} Zeilen; eine Messmitteluntersuchung hat höchstens ${most}.`,
    noColumn: (missing: readonly string[], has: string) =>
      `Es fehlt die Spalte ${missing.map((word) => `„${word}“`).join(" und die Spalte ")}. In der ersten Zeile steht ${has}; sie muss die Spalten benennen.`,
    again: (part: string, operator: string, trial: string, line: number) =>
      `Teil ${part}, Prüfer ${operator}, Wiederholung ${trial} stand schon in Zeile ${line}.`,
    reference: "Geben Sie die Größe des bekannten Teils an.",
    noParts: "Es gibt weder eine Spalte „value“ noch je Teil eine.",
    twice: (first: string, second: string, meaning: string) =>
      `„${first}“ und „${second}“ benennen beide dasselbe (${meaning}). Behalten Sie eine.`,
    emptyCell: "Die Zelle ist leer.",
    notNumber: storedTexts.say,
    emptyReading: "Die Zelle ist leer: Ein Messwert war erwartet.",
    mark: (text: string) =>
      `${text} hat ein anderes Dezimalzeichen als die Messwerte davor. Verwenden Sie eines.`,
    noReadings: "Unter der ersten Zeile stehen keine Messwerte.",
  },
} satisfies typeof english;
