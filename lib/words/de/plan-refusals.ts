import { counted } from "../../format/numbers";
import type { planRefusals as english } from "../en/plan-refusals";

export const planRefusals = {
  "part-number": "Nichts gespeichert: Ein Teil braucht eine Nummer.",
  "part-there": (number: string, revision: string) =>
    `Nichts gespeichert: Das Teil ${number} mit Änderungsstand ${revision || "(keinem)"} gibt es schon.`,
  "part-unknown": (id: number) => `Nichts gespeichert: Es gibt kein Teil ${id}.`,
  "feature-unknown": (id: number) => `Nichts gespeichert: Es gibt kein Merkmal ${id}.`,
  "feature-name": "Nichts gespeichert: Ein Merkmal braucht einen Namen.",
  "feature-name-taken": (name: string) => `Nichts gespeichert: Dieses Teil hat schon ein Merkmal „${name}“.`,
  "feature-unit": (name: string, before: string, after: string) =>
    `Nichts gespeichert: „${name}“ hat Messungen in ${before}; seine Einheit kann also nicht ${after} werden. Geben Sie für die andere Einheit ein neues Merkmal ein, oder wählen Sie die angezeigte Einheit in den Einstellungen des Werks.`,
  "value-no-count": (value: number) =>
    `Nichts gespeichert: Ein gespeicherter Wert passt nicht. Der Prüfplan führt Anzahlen, und ${value} ist keine ganze Zahl ab 0.`,
  "value-many": (value: number, size: number) =>
    `Nichts gespeichert: Ein gespeicherter Wert passt nicht. Laut Prüfplan werden ${size} Teile geprüft, und ${value} fehlerhafte sind mehr.`,
  "tolerance-order": (lower: number, upper: number) =>
    `Nichts gespeichert: Die untere Toleranzgrenze ${lower} liegt nicht unter der oberen ${upper}.`,
  "single-size": "Nichts gespeichert: Eine Karte für Einzelwerte hat Stichproben von 1.",
  "mean-size": (size: number) =>
    `Nichts gespeichert: Eine Karte für Mittelwerte braucht Stichproben von 2 bis 1000, nicht ${size}.`,
  "resolution-step": "Nichts gespeichert: Die Auflösung ist ein Schritt über 0.",
  "length-positive": "Nichts gespeichert: Die Länge, die sich ausdehnt, liegt über 0 mm.",
  "reduced-length":
    "Nichts gespeichert: Auf 20 °C umgerechnet wird ein Wert nur mit einer Länge, die sich ausdehnt, und ein Winkel hat keine.",
  "memory-smoothing": "Nichts gespeichert: λ des gewichteten Mittelwerts liegt zwischen 0,01 und 1.",
  "memory-width": "Nichts gespeichert: L des gewichteten Mittelwerts liegt über 0 und ist höchstens 6.",
  "memory-reference": "Nichts gespeichert: k der kumulierten Summe liegt zwischen 0 und 3.",
  "memory-decisionInterval": "Nichts gespeichert: h der kumulierten Summe liegt über 0 und ist höchstens 20.",
  "memory-headStart": "Nichts gespeichert: Der Startwert der kumulierten Summe liegt zwischen 0 und h/2.",
  "value-no-size":
    "Nichts gespeichert: Eine gespeicherte Anzahl sagt nicht, an wie vielen Teilen oder Einheiten sie gefunden wurde. Geben Sie eine übliche Zahl ein.",
  "value-other-size": (inspected: number, planned: number, chart: "p" | "u") =>
    `Nichts gespeichert: Eine gespeicherte Anzahl wurde an ${inspected} gefunden, nicht an ${planned}. Wählen Sie ${chart} für wechselnde Umfänge.`,
  "value-part-size": (inspected: number) =>
    `Nichts gespeichert: Eine gespeicherte Anzahl wurde an ${inspected} gefunden; das ist keine ganze Zahl von Teilen.`,
  "counts-one-size": (chart: "p" | "u") =>
    `Nichts gespeichert: Diese Karte hat Stichproben von einem Umfang. Geben Sie ihn ein, oder wählen Sie ${chart} für wechselnde Umfänge.`,
  "counts-on-nothing":
    "Nichts gespeichert: Anzahlen werden an einer Zahl von Teilen oder Einheiten über 0 gefunden.",
  "counts-among": (most: number) =>
    `Nichts gespeichert: Fehlerhafte Teile werden unter einer ganzen Zahl von ihnen gezählt, höchstens ${most}.`,
  "counts-single": "Nichts gespeichert: Anzahlen stehen einzeln: Ihre Karte ist die für Einzelwerte.",
  "counts-tolerance":
    "Nichts gespeichert: Anzahlen haben keine Toleranz; was fehlerhaft ist, war entschieden, bevor sie gezählt wurden.",
  "counts-unit": "Nichts gespeichert: Anzahlen haben keine Einheit.",
  "counts-reduced": "Nichts gespeichert: Anzahlen werden nicht auf 20 °C umgerechnet.",
  "rules-none": "Nichts gespeichert: Wählen Sie mindestens eine Regel, sonst gäbe nie etwas ein Signal.",
  "owner-gone": "Nichts gespeichert: Das steht nicht mehr im Prüfplan. Laden Sie die Seite neu.",
  "steps-many": (most: number, count: number) =>
    `Nichts gespeichert: Ein Plan hat höchstens ${most} Schritte, dieser hat ${count}.`,
  "verify-range": (most: number, count: number) =>
    `Nichts gespeichert: Der Nachweis braucht 1 bis ${most} gute Stichproben, nicht ${count}.`,
  "plan-newer": (by: string | null, version: number) =>
    `Nichts gespeichert: ${by ?? "Jemand"} hat inzwischen Fassung ${version} geschrieben. Ihr Text steht noch hier: Vergleichen Sie, und speichern Sie noch einmal.`,

  "limits-why":
    "Nichts gespeichert: Schreiben Sie, warum diese Grenzen festgelegt werden; das Protokoll bewahrt es.",
  "limits-few": (count: number, least: number) =>
    `Nichts gespeichert: Im Vorlauf ${count === 1 ? "zählt eine Stichprobe" : `zählen ${count} Stichproben`}, und Grenzen brauchen mindestens ${least}. Wählen Sie einen längeren Vorlauf, oder bleiben Sie bei vorläufigen Grenzen, bis es genug sind.`,
  "limits-no-lots":
    "Nichts gespeichert: Losmittelwerte unterscheiden sich nicht stärker, als die Messwerte innerhalb eines Loses erklären; es gibt also keine Streuung zwischen Losen, die in Grenzen aufzunehmen wäre.",
  "limits-no-variation":
    "Nichts gespeichert: Der Vorlauf zeigt bei dieser Auflösung keine Streuung; es gibt also nichts, woraus Grenzen zu bilden wären.",
  "estimator-counts":
    "Nichts gespeichert: Das Sigma von Zählwerten folgt aus ihrem Mittelwert; zu wählen gibt es nichts.",
  "estimator-lots":
    "Nichts gespeichert: Grenzen für Losmittelwerte brauchen je Los genau eine Stichprobe, und angegebene Lose. Setzen Sie den Stichprobenumfang im Prüfplan auf die Teile eines Loses, oder schätzen Sie Sigma auf eine andere Art.",
  "estimator-unequal":
    "Nichts gespeichert: Die Stichproben dieses Vorlaufs sind verschieden groß, und diese Art, Sigma zu schätzen, verlangt gleiche. Wählen Sie eine andere.",
  "estimator-other":
    "Nichts gespeichert: Diese Art, Sigma zu schätzen, passt nicht zu dieser Karte. Wählen Sie eine andere.",
  "exclusion-cause":
    "Nichts gespeichert: Nennen Sie die zuordenbare Ursache; ohne eine solche wird eine Stichprobe nie ausgelassen.",
  "exclusion-order": "Nichts gespeichert: Die letzte Stichprobe, die auszulassen ist, kommt vor der ersten.",
  "exclusion-taken-in":
    "Nichts gespeichert: Diese Stichproben wurden schon wieder aufgenommen. Laden Sie die Seite neu.",

  "gauge-code": "Nichts gespeichert: Ein Messmittel braucht ein Kürzel, unter dem Messdateien es nennen.",
  "gauge-there": (code: string) =>
    `Nichts gespeichert: Ein Messmittel ${code} gibt es schon. Ändern Sie stattdessen seine Angaben.`,
  "gauge-unknown": (id: number) => `Nichts gespeichert: Es gibt kein Messmittel ${id}.`,
  "gauge-A": "Nichts gespeichert: A der zulässigen Messabweichung ist mindestens 0 µm.",
  "gauge-K": "Nichts gespeichert: K der zulässigen Messabweichung liegt über 0.",
  "gauge-K-alone": "Nichts gespeichert: K allein sagt nichts: Geben Sie auch A ein, 0, wo es keines gibt.",
  "gauge-due": "Nichts gespeichert: Die Kalibrierung ist nach dem Tag fällig, an dem sie gemacht wurde.",
  "study-feature": "Nichts gespeichert: Das Merkmal, an dem sie gemacht wurde, steht nicht mehr im Prüfplan.",
  "study-unit": (feature: string, own: string, unit: string) =>
    `Nichts gespeichert: ${feature} wird in ${own} gemessen, und die Untersuchung in ${unit}.`,
  "study-why":
    "Nichts gespeichert: Schreiben Sie, warum diese Untersuchung nicht gilt; das Protokoll bewahrt es.",
  "study-withdrawn":
    "Nichts gespeichert: Diese Untersuchung wurde schon zurückgezogen. Laden Sie die Seite neu.",
  "study-parts": (count: number) =>
    `Nichts gespeichert: Sie hat ${counted(count, "Teil", "Teile")}, und mindestens 2 sind nötig.`,
  "study-operators": (count: number) =>
    `Nichts gespeichert: Sie hat ${count} Prüfer, und mindestens 2 sind nötig: Was sich zwischen ihnen ändert, ist die halbe Frage.`,
  "study-gap": (part: string, operator: string, count: number, others: number) =>
    `Nichts gespeichert: Teil ${part} bei Prüfer ${operator} hat ${counted(count, "Messwert", "Messwerte")}, andere haben ${others}. Jeder Prüfer misst jedes Teil gleich oft.`,
  "study-trials":
    "Nichts gespeichert: Jeder Prüfer maß jedes Teil einmal; erst mindestens 2 Wiederholungen zeigen, wie gut es wiederholt.",
  "study-tolerance":
    "Nichts gespeichert: Eine Untersuchung Typ 1 urteilt gegen eine Toleranz: Geben Sie deren Breite an oder ein Merkmal, das eine hat.",
  "study-one-setup":
    "Nichts gespeichert: Kein Teil wurde in zwei oder mehr Aufbauten gemessen; nichts sagt also, was der neue Aufbau hinzufügt.",
  "study-one-reading":
    "Nichts gespeichert: Kein Teil wurde in einem Aufbau zweimal gemessen; nichts trennt also Aufbau und Wiederholpräzision.",
  "study-alike":
    "Nichts gespeichert: Alle Messwerte sind gleich: Der Schritt des Messmittels verdeckt seine eigene Streuung. Lesen Sie eine Stelle weiter ab, oder untersuchen Sie es mit feineren Messwerten.",
  "study-few": (got: number, needed: number) =>
    `Nichts gespeichert: Sie hat ${counted(got, "Messwert", "Messwerte")}, und mindestens ${needed} sind nötig.`,
} satisfies typeof english;
