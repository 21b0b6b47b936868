import { counted } from "../../format/numbers";
import type { lesson as english } from "../en/lesson";

export const lesson = {
  title: "Lehrgang",
  purpose:
    "In das Werk der Demo sind fünf Fehler eingebaut. Finden Sie sie selbst, und vergleichen Sie dann, was eingebaut wurde, mit dem, was das Programm sagt.",
  tasks: {
    title: "Aufgaben",
    purpose: "Jede dauert einige Minuten auf den echten Seiten. Die Antworten stehen unten.",
    locator:
      "Finden Sie den verschlissenen Aufnahmebolzen innerhalb von fünf Minuten: Welche Vorrichtung verschiebt das Gehäuse H-210, seit welchem Los, und welche ihrer Merkmale gehen nicht mit?",
    forecast:
      "Sagen Sie, wie viele Teile bleiben, bis das erste Merkmal seine Toleranzgrenze erreicht, mit dem Bereich, und was eine Reparatur heute ersparen würde.",
    edge: "Öffnen Sie eine Bohrung von H-320 und färben Sie ihre Regelkarte nach Werkzeug: Was geschieht zwischen zwei Wechseln der Schneide, und seit wann geschieht es schneller?",
    casting:
      "Ein Los Gussteile war am Lagerbock BB-40 anders. Finden Sie es, und sagen Sie, warum niemand die Vorrichtung anfassen sollte.",
    answer:
      "Tragen Sie als Schichtleitung „Aufnahmebolzen ersetzt“ an der Vorrichtung ein, und sehen Sie, wie der Suchlauf antwortet.",
    ownFile:
      "Nun eine eigene Datei: Legen Sie sie in der Datenannahme ab, sagen Sie einmal, welche Spalte welche ist, und öffnen Sie die Regelkarte ihres ersten Merkmals.",
  },
  compare: {
    title: "Eingebaut und gefunden",
    purpose:
      "Links, was eingebaut wurde, rechts, was der letzte Suchlauf in den Messungen fand, gelesen, als diese Seite entstand.",
    notYet: "Der erste Suchlauf ist im Gange; diese Seite zeigt ihn von selbst.",
  },
  card: {
    planted: "Eingebaut",
    since: (lot: string, until: string | null) =>
      ` ab Los ${lot}${until === null ? "" : ` bis vor ${until}`}: `,
    more: (count: number) => `und ${counted(count, "weiteres Merkmal", "weitere Merkmale")}`,
    found: "Gefunden",
    endedSince: "Die Meldung ist seither beendet. ",
    agreement: (agreeing: number, planted: number, besides: string) =>
      `Die Meldung nennt ${agreeing} von ${counted(planted, "eingebauten Merkmal", "eingebauten Merkmalen")}${besides === "" ? " und kein anderes" : `, und außerdem ${besides}`}. `,
    onset: (planted: string, found: string, isWithin: boolean) =>
      `Eingebaut seit ${planted}, gefunden seit ${found}: ${isWithin ? "innerhalb" : "außerhalb"} des genannten Bereichs.`,
    evidence: "Die Belege ansehen",
    past: "Nicht im letzten Suchlauf",
    pastWhy: (lot: string) =>
      `Der Suchlauf sieht auf die letzten 60 Lose jedes Teils zurück, hier ab ${lot}, und dies war davor. Die Regelkarten der Merkmale zeigen es noch; auf 20 °C umgerechnete Merkmale bleiben flach, wo die wie gemessen eingetragenen dem Wetter folgen.`,
    notFound: "Nicht gefunden",
    atEvent: "Als Änderung gefunden",
    logged: (event: string, code: string, note: string, day: string) =>
      `Als es begann, am ${day}, trug jemand für ${code} „${event}“ ein${note === "" ? "" : ` (${note})`}.`,
    noChange: " Damit hat sich sichtbar nichts geändert.",
    change: (shift: string, count: number, all: number) =>
      ` Seither liegt die Anzeige um ${shift} anders, deutlich bei ${count} von ${counted(all, "Merkmal", "Merkmalen")}.`,
    intended:
      "Was sich mit einem eingetragenen Ereignis ändert, hält der Suchlauf für beabsichtigt und meldet es nicht: Ein Mensch muss es {link} bestätigen.",
    onDrift: "auf der Seite Drift",
    nothingToCompare: "Der Suchlauf konnte es mit nichts vergleichen.",
    wouldBeSeen: (sigma: string) => `Ein Sprung eines einzelnen Merkmals wäre ab ${sigma} Sigma aufgefallen.`,
  },
  faults: {
    "worn-locator": {
      title: "Ein Aufnahmebolzen von FX-2 verschleißt",
      course:
        "+0,001 mm in L-0231 (Mittwoch früh), dann +0,002 mm je Los bis +0,021 mm in L-0241 (Samstag spät). Die zuerst geladenen Dateien enden mit L-0236 bei +0,011 mm.",
      whatToExpect:
        "FX-2 driftet seit L-0231; FX-1 und FX-3 bleiben in denselben Losen flach; 5 der 7 Merkmale, die sie bestimmt, stimmen überein; „Input bore depth“ erreicht zuerst seine obere Toleranzgrenze, etwa 45 Teile nach L-0241.",
    },
    "boring-bar-wear": {
      title:
        "Die Bohrstange T-114 verschleißt nach einem Wechsel des Lieferanten mehr als viermal so schnell",
      course:
        "Die Bohrungen werden über eine Standzeit von 90 Teilen um 0,009 mm kleiner, davor um 0,002 mm; jeder Wechsel der Schneide bringt sie zurück.",
      whatToExpect:
        "Ein Sägezahn an drei Bohrungen von H-320 ab der Schneide von L-2072, am größten kurz vor jedem Wechsel.",
    },
    "gauge-jump": {
      title: "Die Messstation GA-2 springt bei ihrer Kalibrierung und wird neun Tage später richtiggestellt",
      course:
        "+0,006 mm auf alles, was sie anzeigt, von der Kalibrierung bis zum Einstellen; GA-1 misst dieselben Lagerböcke unverändert.",
      whatToExpect:
        "Dieselben 0,006 mm an 16 Merkmalen zweier Teile, die vier Werkzeuge bearbeiten; am Merkmal in Zoll 0,00024 in.",
    },
    "bad-casting-lot": {
      title: "Ein Los Gussteile mit versetztem Kern und harter Gusshaut",
      course: "Nur L-4043; L-4042 davor und L-4044 danach sind wie sonst.",
      whatToExpect:
        "Zehn Merkmale von BB-40 weichen in einem Los ab und sind im nächsten zurück: das Material ansehen, nicht die Vorrichtung.",
    },
    "hot-weekend": {
      title: "Ein heißes Wochenende",
      course:
        "Die Teile sind von Freitagnachmittag bis Montagabend der dritten Woche bis zu 9,5 K wärmer; jedes Maß wächst um seine Länge × 10,5e-6 (Gusseisen) oder 23e-6 (Aluminium) je Kelvin.",
      whatToExpect:
        "Wie gemessen eingetragene Maße folgen der Temperatur, lange am meisten; auf 20 °C umgerechnete (als unberührt aufgeführt) bleiben, wo sie waren.",
    },
  },
} satisfies typeof english;
