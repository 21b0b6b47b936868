import { counted } from "../../format/numbers";
import type { problems as english } from "../en/problems";

export const problems = {
  figures: {
    capabilityIndex: "Fähigkeitsindex",
    fractionOutside: "Anteil außerhalb der Toleranz",
    picture: "Bild der Verteilung",
    shares: "Anteile der Streuung",
    test: "Test",
    controlLimits: "Eingriffsgrenzen",
    lots: "Vergleich der Lose",
  },
  readings: (figure: string, got: number, needed: number) =>
    `${figure}: noch nicht, ${got} von mindestens ${counted(needed, "Messung", "Messungen")}. Sie kommen mit weiteren Messungen; zu reparieren ist nichts.`,
  subgroups: (figure: string, got: number, needed: number) =>
    `${figure}: noch nicht, ${got} von mindestens ${counted(needed, "Stichprobe", "Stichproben")}. Sie kommen mit weiteren Stichproben; zu reparieren ist nichts.`,
  noVariation: (figure: string) =>
    `${figure}: nicht zu berechnen, denn alle Messwerte sind gleich. Vielleicht löst das Messmittel zu grob auf, um die Streuung des Prozesses zu zeigen; sehen Sie im Prüfplan nach seiner Auflösung.`,
  notPositive: (figure: string, least: number) =>
    `${figure}: nicht zu berechnen, denn dieses Modell beginnt bei null, und ein Messwert ist ${least}. Wählen Sie ein anderes Modell, oder sehen Sie diesen Messwert an.`,
  noTolerance: (figure: string) =>
    `${figure}: nicht zu berechnen, denn der Prüfplan nennt für dieses Merkmal keine Toleranz. Die Technik kann sie dort eingeben.`,
  oneSided: (figure: string, missing: "lower" | "upper") =>
    `${figure}: nicht zu berechnen, denn die Zeichnung nennt keine ${missing === "lower" ? "untere" : "obere"} Toleranzgrenze; zu beurteilen ist nur die andere Seite.`,
} satisfies typeof english;
