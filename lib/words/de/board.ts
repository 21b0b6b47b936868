import { counted, whole } from "../../format/numbers";
import type { board as english } from "../en/board";

const features = (count: number) => counted(count, "Merkmal", "Merkmale");
const subgroups = (count: number) => counted(count, "Stichprobe", "Stichproben");

export const board = {
  title: "Schichttafel",
  purpose: "Was jetzt jemanden braucht, was bald, und was ruhig ist.",
  bands: {
    act: {
      title: "Handeln",
      words:
        "Hier wird jetzt jemand gebraucht: Diese Quellen haben sich verschoben, und diese Merkmale haben ihre Eingriffsgrenzen, ihr Muster oder ihre Toleranz verlassen und sind nicht zurückgekehrt.",
      none: "Nichts braucht jetzt jemanden.",
    },
    watch: {
      title: "Beobachten",
      words: "Bald, nicht jetzt: Sehen Sie diese an, wenn darüber nichts steht.",
      none: "Nichts zu beobachten.",
    },
  },
  features,
  counts: (counts: { sources: number; features: number; gauges: number }) =>
    [
      ...(counts.sources > 0 ? [counted(counts.sources, "Quelle", "Quellen")] : []),
      ...(counts.features > 0 ? [features(counts.features)] : []),
      ...(counts.gauges > 0 ? [counted(counts.gauges, "Messmittel", "Messmittel")] : []),
    ].join(", "),
  turning: {
    of: (list: string) => `Seiten von ${list}`,
    shown: (from: number, to: number, count: number) =>
      `Merkmale ${whole(from)} bis ${whole(to)} von ${whole(count)}`,
    first: "Erste",
    previous: "Vorige",
    next: "Nächste",
  },
  shown: (shown: number, all: number) => `${shown} von ${counted(all, "Merkmal", "Merkmalen")} gezeigt`,
  noMeasurements: "Noch keine Messungen",
  latest: (ago: string) => `Letzte Messung ${ago}`,
  ppkAtLeast: "Ppk mindestens",
  measured: "gemessen",
  since: "Beginn",
  key: "besonderes Merkmal",
  suspected: "Verdächtige Quelle:",
  sinceLot: (lot: string) => `seit ${lot}`,
  wasSuspected: "War verdächtig:",
  answered: (lot: string, did: string, moment: string) => `seit ${lot}; ${did} am ${moment}`,
  latestFrom: "Letzte Messung von",
  gauge: (code: string) => `Messmittel ${code}`,
  calibration: (standing: string, count: number) => `Kalibrierung ${standing}; es misst ${features(count)}.`,
  calibrationStates: {
    notStated: "ohne Termin",
    overdue: (days: number) => `seit ${counted(days, "Tag", "Tagen")} überfällig`,
    today: "heute fällig",
    due: (days: number) => `in ${counted(days, "Tag", "Tagen")} fällig`,
  },
  filter: {
    find: "Suchen",
    line: "Linie",
    part: "Teil",
    source: "Quelle",
    allLines: "alle Linien",
    allParts: "alle Teile",
    allSources: "alle Quellen",
    show: "Anzeigen",
    showAll: "Alle anzeigen",
    nothing: "Kein Merkmal erfüllt diesen Filter",
    passes: "Eine Quelle erfüllt ihn, wo sie die letzten Teile eines Merkmals gefertigt oder gemessen hat.",
  },
  empty: {
    title: "Noch keine Merkmale",
    takeIn: "Eine Messdatei annehmen",
    byHand: "Ein Teil von Hand eingeben",
    seePlan: "Den Prüfplan ansehen",
    mayPlan:
      "Die Tafel füllt sich von selbst, sobald Messungen eintreffen: Legen Sie eine Datei in der Datenannahme ab, sie bringt ihre Teile und Merkmale mit, oder geben Sie diese zuerst im Prüfplan ein.",
    mayNot: "Die Tafel füllt sich von selbst, sobald die Technik die erste Messdatei angenommen hat.",
  },
  quiet: {
    title: "Ruhig",
    none: "Kein Merkmal ist ruhig.",
    count: (count: number, parts: number) => `${features(count)} an ${counted(parts, "Teil", "Teilen")}`,
    features: (count: number) => counted(count, "ruhiges Merkmal", "ruhige Merkmale"),
    of: (part: string) => `Ruhige Merkmale von ${part}`,
    heads: {
      feature: "Merkmal",
      strip: "Letzte Mittelwerte in der Toleranz",
      why: "Zustand",
      ppk: "Ppk mindestens",
      latest: "Gemessen",
    },
  },
  reasons: {
    withdrawn:
      "Die Messungen hinter einem offenen Alarm wurden zurückgenommen, berichtigt oder ausgelassen. Schließen Sie ihn mit einer Bemerkung.",
    shelved: (what: string) => `Alarm zurückgestellt. ${what}.`,
    unseen: (ago: string) => `Wieder normal, und niemand hat quittiert. Letztes Signal ${ago}.`,
    returned: (ago: string) => `Wieder normal; schließen Sie den Alarm. Letztes Signal ${ago}.`,
    meanOutside: (readings: number) =>
      `Der Mittelwert der letzten ${counted(readings, "Messung", "Messungen")} liegt außerhalb der Toleranz.`,
    ppk: (bound: string, readings: number, wanted: string) =>
      `Ppk ist mindestens ${bound} (95 %, ${counted(readings, "Messung", "Messungen")}); unter ${wanted} wird beobachtet.`,
    trial: (count: number) =>
      `Noch nach vorläufigen Grenzen beurteilt, bei ${counted(count, "Stichprobe", "Stichproben")}: genug, um sie festzulegen.`,
    unjudged: (count: number) =>
      `Nach ${subgroups(count)} beurteilt es noch nichts: Die ersten ergeben keine vorläufigen Grenzen. Legen Sie Grenzen aus einem Vorlauf fest.`,
    silent: (time: string) => `${time} lang keine Messung: Niemand weiß, wie es steht.`,
    noMeasurements: "Noch keine Messungen.",
    noLimits: "Noch keine Eingriffsgrenzen.",
    byTrial: (count: number) => `Kein Signal nach vorläufigen Grenzen; bisher ${subgroups(count)}.`,
    noTolerance: "Kein Signal; es ist keine Toleranz angegeben.",
    noSignal: "Kein Signal.",
  },
  wall: {
    nothing: "Nichts braucht jetzt jemanden.",
    noFeatures: "Noch keine Merkmale.",
    pages: "Seite {page} von {count}; die nächste folgt von selbst.",
    more: (count: number) =>
      count === 1
        ? "1 weiteres steht auf der Schichttafel."
        : `${whole(count)} weitere stehen auf der Schichttafel.`,
    clock: {
      signedOut: "Dieser Bildschirm darf nicht mehr zusehen. Stand von {time}.",
      gone: "Keine Verbindung. Stand von {time}.",
      old: "Veraltet: Stand von {time}.",
    },
  },
} satisfies typeof english;
