import type { FeatureKind } from "../../plan/feature-plan";

const CONTAIN = "Alle Teile seit der letzten guten Stichprobe sperren und die Behälter kennzeichnen.";
const MEASURE_AGAIN = "Teil und Messmittel reinigen, dann das letzte Teil noch einmal messen.";
const SECOND_GAUGE =
  "Dasselbe Teil mit einem zweiten Messmittel messen; weichen beide ab, das erste nicht mehr verwenden.";
const CALL = "Ist die Ursache nach 30 Minuten noch offen, die Station anhalten und die Technik rufen.";
const CONFIRM = "Nach der Maßnahme fünf Teile in Folge messen; nur freigeben, was gut gemessen wurde.";

export const reactions: Record<FeatureKind, readonly string[]> = {
  size: [
    MEASURE_AGAIN,
    CONTAIN,
    "Teiletemperatur mit 20 °C vergleichen; ein warmes Teil abkühlen lassen und noch einmal messen.",
    "Die Werkzeugschneide ansehen: Teile seit dem Wechsel, Ausbrüche, Aufbauschneide.",
    "Mit den anderen Vorrichtungen im selben Los vergleichen: Nur eine weicht ab, dann ist es die Vorrichtung; alle weichen ab, dann Werkzeug, Messmittel oder Material.",
    SECOND_GAUGE,
    "Die Werkzeugkorrektur nur für eine gefundene Ursache ändern und als Ereignis am Werkzeug eintragen.",
    CONFIRM,
    CALL,
  ],
  position: [
    MEASURE_AGAIN,
    CONTAIN,
    "Aufnahmen und Spanner reinigen; nach Spänen unter dem Teil sehen.",
    "Mit den anderen Vorrichtungen im selben Los vergleichen.",
    "Die Aufnahmebolzen mit dem Meisterteil oder einer Messuhr prüfen.",
    "Den Rohguss ansehen: Grat oder ein versetzter Kern an den Aufnahmestellen.",
    CONFIRM,
    CALL,
  ],
  form: [
    MEASURE_AGAIN,
    CONTAIN,
    "Den Spanndruck prüfen und einmal gespannt, einmal frei messen.",
    "Die Werkzeugschneide ansehen und auf Rattern hören.",
    "Das Gusslos ansehen: Wanddicke, harte Haut.",
    CONFIRM,
    CALL,
  ],
  orientation: [
    MEASURE_AGAIN,
    CONTAIN,
    "Die Auflageflächen der Vorrichtung reinigen; nach Spänen und Druckstellen sehen.",
    "Die Fläche der Vorrichtung mit einer Messuhr gegen die Spindel prüfen.",
    "Mit den anderen Vorrichtungen im selben Los vergleichen.",
    CONFIRM,
    CALL,
  ],
  profile: [
    MEASURE_AGAIN,
    CONTAIN,
    "Die Ausrichtung des Messmittels am Meisterteil prüfen und neu einrichten, wenn sie nicht stimmt.",
    "Die Werkzeugschneide ansehen.",
    "Das Gusslos ansehen.",
    CONFIRM,
    CALL,
  ],
  runout: [
    MEASURE_AGAIN,
    CONTAIN,
    "Bezugsbohrung und Spindelaufnahme reinigen; den Rundlauf der Werkzeugaufnahme prüfen.",
    "Die Werkzeugschneide ansehen.",
    CONFIRM,
    CALL,
  ],
  other: [
    MEASURE_AGAIN,
    CONTAIN,
    SECOND_GAUGE,
    "Danach sehen, was sich zuletzt geändert hat: Werkzeug, Vorrichtung, Messmittel, Los, Person.",
    CONFIRM,
    CALL,
  ],
};
