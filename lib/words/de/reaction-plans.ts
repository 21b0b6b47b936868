import { counted } from "../../format/numbers";
import type { reactionPlans as english } from "../en/reaction-plans";

export const reactionPlans = {
  title: "Reaktionspläne",
  of: (owner: string) => `Reaktionsplan: ${owner}`,
  purpose:
    "Was ein Mensch an der Linie bei einem Signal tut, Schritt für Schritt. Ein Alarm behält die Fassung, unter der er ausgelöst wurde.",
  none: "Noch keine Merkmale",
  noneWhy:
    "Sobald der Prüfplan Merkmale hat, hat jedes hier einen Plan: den üblichen seiner Art, bis jemand einen anderen schreibt.",
  ofPart: (version: number) => `Der Plan des Teils, Fassung ${version}`,
  noneOfPart: "Kein Plan des Teils: Jedes Merkmal hat den üblichen seiner Art",
  caption: (part: string) => `Reaktionspläne von ${part}`,
  heads: { feature: "Merkmal", plan: "Plan", steps: "Schritte" },
  plans: {
    default: "der übliche Plan seiner Art",
    feature: (version: number) => `der eigene Plan des Merkmals, Fassung ${version}`,
    part: (version: number) => `der eigene Plan des Teils, Fassung ${version}`,
  },
  inForce: (plan: string) => `Es gilt: ${plan}.`,
  becomesOwn: " Was Sie hier speichern, wird ein eigener Plan und tritt an seine Stelle.",
  mayNot: "Ändern kann ihn die Technik.",
  versions: "Fassungen",
  version: (version: number) => `Fassung ${version}, {by}, {when}`,
  withReason: (version: number) => `Fassung ${version}, {by}, {when}: {reason}`,
  somebody: "jemand",
  takenBack: "Der Plan wurde zurückgenommen.",
  verifiedBy: (count: number) =>
    `Nachgewiesen durch ${counted(count, "gute Stichprobe", "gute Stichproben")} in Folge.`,
  form: {
    steps: "Schritte, einer je Zeile, in der Folge, in der sie zu tun sind",
    stepsHint:
      "Was ein Mensch um 02:40 an der Linie tut: erst noch einmal messen, dann sperren, dann die Ursache suchen.",
    verify: "Gute Stichproben in Folge, die zeigen, dass eine Maßnahme wirkt",
    reason: "Warum er sich ändert",
    saving: "Wird gespeichert …",
    next: "Als nächste Fassung speichern",
    own: "Als eigenen Plan speichern",
    takeBack: "Diesen Plan zurücknehmen",
  },
  faults: {
    noStep: "Schreiben Sie mindestens einen Schritt, oder nehmen Sie den Plan zurück.",
    manySteps: (most: number) => `Höchstens ${most} Schritte: Ein Mensch an der Linie hat Minuten.`,
    longStep: (most: number) => `Ein Schritt hat höchstens ${most} Zeichen.`,
    verify: "Schreiben Sie eine ganze Zahl von 1 bis 50.",
    verifyLeast: "Mindestens 1.",
    verifyMost: "Höchstens 50.",
    long: (most: number) => `Höchstens ${most} Zeichen.`,
    incomplete:
      "Dieses Formular war nicht vollständig. Laden Sie die Seite neu und versuchen Sie es noch einmal.",
  },
  answers: {
    takenBack:
      "Gespeichert. Der Plan ist zurückgenommen; Alarme, die unter ihm ausgelöst wurden, behalten ihn.",
    saved: (version: number) =>
      `Gespeichert. Fassung ${version} gilt für Alarme, die von jetzt an ausgelöst werden.`,
  },
} satisfies typeof english;
