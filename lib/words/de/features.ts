import { counted, whole } from "../../format/numbers";
import type { features as english } from "../en/features";

const subgroups = (count: number) => counted(count, "Stichprobe", "Stichproben");
const numbers = (first: number, last: number) =>
  first === last ? `Stichprobe ${first}` : `Stichproben ${first} bis ${last}`;

export const features = {
  title: "Merkmale",
  purpose:
    "Jedes gemessene Merkmal und wie es darum steht; sein Name führt zu seiner Regelkarte. Ppk ist mit 95 % Vertrauen mindestens so groß, nach den letzten 25 Stichproben und mindestens 100 Messwerten; „Fähigkeit“ betrachtet längere Zeiträume.",
  list: {
    none: "Noch keine Merkmale",
    toPlan: "Zum Prüfplan",
    noneWhy: "Sie werden im Prüfplan eingegeben oder kommen mit der ersten Messdatei über die Datenannahme.",
    find: "Suchen",
    part: "Teil",
    allParts: "alle Teile",
    show: "Anzeigen",
    showAll: "Alle anzeigen",
    count: (count: number) => counted(count, "Merkmal", "Merkmale"),
    some: (shown: number, all: number) => `${shown} von ${counted(all, "Merkmal", "Merkmalen")}`,
    nothing: "Nichts gefunden",
    nothingWhy: (find: string, part: string) =>
      `Kein Merkmal${part === "" ? "" : ` von ${part}`} trägt „${find}“ in seinem Namen, seinem Teil oder seiner Art.`,
    heads: {
      feature: "Merkmal",
      part: "Teil",
      kind: "Art",
      tolerance: "Toleranz",
      strip: "Letzte Mittelwerte darin",
      limits: "Grenzen",
      measurements: "Messungen",
      ppk: "Ppk mindestens",
      latest: "Letzte",
    },
    key: (kind: string) => `${kind}, besonderes`,
    trial: "vorläufig",
    version: (version: number) => `Fassung ${version}`,
  },
  page: {
    tab: "Regelkarte",
    fromTo: (first: string, last: string) => `${first} bis ${last}`,
    reduced: "Auf 20 °C umgerechnet.",
    measured: "Wie gemessen.",
    capability: "Fähigkeit",
    plan: "Prüfplan",
    chart: "Qualitätsregelkarte",
    nothing: "Noch nichts einzuzeichnen",
    soon: (size: number) =>
      `Punkte erscheinen, sobald eine Stichprobe von ${size} vollständig ist; zu reparieren ist nichts.`,
    limits: "Grenzen und ausgelassene Stichproben",
    limitsPurpose:
      "Grenzen bewegen sich nie von selbst: Jemand wählt einen Vorlauf und legt sie mit einer Begründung fest.",
  },
  numbers,
  noNumber: "keine Stichprobe mehr",
  chart: {
    title: "Regelkarte",
    colourBy: "Färben nach",
    nothing: "nichts",
    walk: "Stichproben auf der Regelkarte",
    location: { "xbar-r": "Mittelwert", "xbar-s": "Mittelwert", "i-mr": "Einzelwert" },
    spread: { "xbar-r": "Spannweite", "xbar-s": "Standardabweichung", "i-mr": "Gleitende Spannweite" },
    subgroup: "Stichprobe",
    axis: "Stichprobe, {from} bis {to}",
    about: "{part}, {from} bis {to}",
    noSubgroup: "keine Stichprobe",
    leftOut: "ausgelassen",
    beyond: "jenseits seiner Grenzen",
    pattern: "in einem Muster",
    more: "+{count} weitere",
    mixed: "gemischt",
    several: "mehrere",
    offAxis: {
      one: "1 Punkt liegt außerhalb dieser Achse: Nummer {number}, {value}.",
      many: "{count} Punkte liegen außerhalb dieser Achse, am weitesten Nummer {number}: {value}.",
      whole: "Die Achse umfasst alle Punkte.",
      showWhole: "Den ganzen Bereich zeigen",
      showNear: "Achse an Grenzen und die meisten Punkte anpassen",
    },
    legend: {
      others: "{count} andere",
      about: "darum: jenseits einer Grenze",
      within: "innerhalb der Grenzen",
      pattern: "in einem Muster",
      beyond: "jenseits einer Grenze",
      leftOut: "ausgelassen",
    },
    panel: {
      label: "Die gewählte Stichprobe",
      choose:
        "Berühren Sie einen Punkt, oder gehen Sie mit den Pfeiltasten die Karte entlang, um seine Teile, Quellen und Messwerte zu sehen.",
      title: "Stichprobe {number}",
      leftOut: "Ausgelassen: {cause}.",
      noCause: "keine Ursache angegeben",
      reading: "Ihr Messwert",
      readings: "Ihre {count} Messwerte",
      piece: "Teil",
      value: "Wert",
      asMeasured: "wie gemessen",
    },
    table: {
      summary: "Die Punkte als Tabelle: {which}",
      which: "Stichproben {from} bis {to}",
      caption: "Punkte der Regelkarte, {which}",
      captionIn: "Punkte der Regelkarte, {which}, in {unit}",
      none: "keine",
      lastReading: "Letzte Messung",
      lot: "Los",
      ofSpread: "deren z",
      signals: "Signale",
      beyond: "Jenseits einer Grenze",
      spreadBeyond: "{name} jenseits einer Grenze",
      leftOut: "Ausgelassen",
      yes: "ja",
    },
  },
  marks: {
    trial: "vorläufige Grenzen",
    limits: (version: number, day: string | null) => `Grenzen ${version}${day === null ? "" : `, ${day}`}`,
    since: (day: string) => `seit ${day}`,
    event: (code: string, event: string) => `${code} ${event}`,
    noted: (what: string, moment: string, note: string) =>
      `${what}, ${moment}${note === "" ? "" : `: ${note}`}`,
  },
  tabs: {
    label: "Karten dieser Punkte",
    counts: (chart: string) => `Zählwerte (${chart})`,
    judged: (name: string) => `${name}: beurteilt`,
    ewma: "Gewichteter Mittelwert (EWMA)",
    cusum: "Kumulierte Summen (CUSUM)",
    shortRun: "Kleine Serien",
    lots: "Losmittelwerte",
  },
  asked: {
    needs: {
      lambda: "0,01 bis 1",
      L: "über 0, höchstens 6",
      k: "0 bis 3",
      h: "über 0, höchstens 20",
    },
    fault: (name: string, needs: string, usual: number) =>
      `${name} ist eine Zahl, ${needs}; stattdessen gilt ${usual}.`,
  },
  strip: {
    whole: (count: number) => `Das ist der ganze Verlauf: ${whole(count)} Stichproben.`,
    part: (first: number, last: number, count: number) =>
      `Gezeigt sind die Stichproben ${first} bis ${last} von ${whole(count)}.`,
    showAll: "Alle anzeigen",
    spoken: (count: number, marked: number, excluded: number) =>
      `Der ganze Verlauf: ${whole(count)} Stichproben, davon ${whole(marked)} mit Signal oder jenseits einer Grenze${excluded === 0 ? "" : `, ${whole(excluded)} ausgelassen`}`,
  },
  steps: {
    earlier: "Früher",
    later: "Später",
    latest: "Neueste",
    all: "Alle",
    allAtMost: "Alle (höchstens {most})",
    label: "Ausschnitt des Verlaufs",
    where: "Stichproben {first} bis {last} von {count}",
    first: "Erste gezeigte Stichprobe",
    last: "Letzte gezeigte Stichprobe",
    notShown: "Die Stichproben {first} bis {last} werden nicht gezeigt: {why}",
    noAnswer: "Der Server antwortet nicht.",
    status: "Der Server antwortete mit einem Fehler ({status}).",
    again: "Noch einmal versuchen",
  },
  points: {
    noRange: (most: number) =>
      `Nichts wurde gelesen: Nennen Sie die erste und die letzte Stichprobe, von 0 an gezählt, als from und to; höchstens ${whole(most)}.`,
    none: "Nichts wurde gelesen: Diese Punkte gibt es nicht mehr. Laden Sie die Seite neu.",
  },
  engineer: {
    freeze: "Eingriffsgrenzen festlegen",
    freezePurpose:
      "Wählen Sie Stichproben, in denen der Prozess lief, wie er soll. Neue Grenzen beurteilen, was danach kommt; nur Menschen ändern Grenzen.",
    baseline: { first: "Erste des Vorlaufs", last: "Letzte des Vorlaufs" },
    estimator: "Sigma innerhalb der Stichproben aus",
    estimatorHint: "Was dieser Vorlauf zulässt.",
    looking: "Wird berechnet …",
    look: "Ansehen, welche Grenzen er gibt",
    reason: "Begründung",
    reasonHint: "Warum diese Grenzen, und warum jetzt: Das Protokoll bewahrt es.",
    freezing: "Wird festgelegt …",
    freezeThese: "Diese Grenzen festlegen",
    judge: "Die neuen Grenzen beurteilen",
    from: {
      everything: "den ganzen Verlauf",
      "after-baseline": "was nach dem Vorlauf kommt",
      "from-number": "ab einer Stichprobe:",
    },
    fromNumber: "Stichprobe, ab der die neuen Grenzen beurteilen, 1 bis {count}",
    leaveOut: "Stichproben auslassen",
    leaveOutPurpose:
      "Nur mit einer zuordenbaren Ursache: Etwas Bekanntes ist mit ihnen geschehen. Sie bleiben auf der Karte, hohl, und zählen weder für Grenzen noch für Regeln.",
    left: { first: "Erste ausgelassene", last: "Letzte ausgelassene" },
    cause: "Zuordenbare Ursache",
    noCause: "keine von diesen: unten in Worten",
    detail: "In Worten",
    detailHint: "Was geschah, und was gefunden wurde oder wer davon weiß.",
    leavingOut: "Wird ausgelassen …",
    leave: "Auslassen",
    leftOut: "Zurzeit ausgelassen",
    noneLeftOut: "Keine Stichprobe ist ausgelassen.",
    takeIn: "Wieder aufnehmen",
    takeInWhich: "Wieder aufnehmen: {which}",
    range: "Stichprobe 1 bis {count}.",
    take: "Den gewählten Punkt nehmen",
    takeNumber: "Den gewählten Punkt nehmen, {number}",
    as: " als {which}",
  },
  usual: (name: string) => `${name} (üblich)`,
  leftOutOn: (numbers: string, day: string, by: string | null) =>
    `${numbers}, ausgelassen am ${day}${by ? ` von ${by}` : ""}`,
  preview: {
    baseline: (window: string, days: string, count: number) =>
      `Vorlauf ${window}, ${days}: ${subgroups(count)} ${count === 1 ? "zählt" : "zählen"}.`,
    leftOut: (count: number) => ` ${subgroups(count)} darin ausgelassen.`,
    tooFew: (least: number) =>
      `Zu wenige zum Festlegen: Grenzen brauchen mindestens ${least} Stichproben, die zählen.`,
    caption: (window: string) => `Grenzen aus ${window} neben den geltenden`,
    limit: "Grenze",
    this: "dieser Vorlauf",
    inForce: "geltend",
    trial: "vorläufige Grenzen",
    version: (version: number) => `Grenzen ${version}`,
    count: "Anzahl",
    upper: (name: string) => `${name}, obere Grenze`,
    centre: "Mittellinie",
    lower: (name: string) => `${name}, untere Grenze`,
    none: "keine",
    sigmaOfCount: "Sigma einer Anzahl",
    sigma: "Sigma innerhalb der Stichproben",
    between: "Sigma zwischen Losen",
    noSignal: "Nach seinen eigenen Grenzen beurteilt, gibt nichts in ihm ein Signal.",
    signals: (count: number) =>
      `Nach seinen eigenen Grenzen beurteilt, ${count === 1 ? "gäbe ein Muster" : `gäben ${count} Muster`} in ihm ein Signal. Suchen Sie die Ursachen; lassen Sie aus, was eine hat, oder wählen Sie einen ruhigeren Abschnitt.`,
    ofSpread: "Streuung: ",
    more: (count: number) => `und ${count} weitere`,
  },
  answers: {
    notSaved: (why: string) => `Nichts gespeichert: ${why}`,
    longReason: (most: number) => `Die Begründung hat mehr als ${most} Zeichen; kürzen Sie sie.`,
    longCause: (most: number) => `Die Ursache hat mehr als ${most} Zeichen; kürzen Sie sie.`,
    incomplete: "Das Formular war nicht vollständig. Laden Sie die Seite neu und senden Sie es noch einmal.",
    noSubgroup: "Es gibt noch keine Stichprobe.",
    whichNumbers: (count: number) =>
      `Nennen Sie die erste und die letzte Stichprobe mit ihren Nummern, von 1 bis ${count}. Nehmen Sie sie von der Karte, oder geben Sie sie ein.`,
    order: (first: number, last: number) =>
      `Stichprobe ${first} kommt nach Stichprobe ${last}. Geben Sie die frühere zuerst ein.`,
    sameTime: (first: number, last: number) =>
      `Die ${numbers(first, last)} wurden zur selben Zeit gemessen, und gespeichert wird eine Zeitspanne. Wählen Sie alle, oder nehmen Sie die Datei noch einmal an, mit der Uhrzeit jedes Teils.`,
    fromWhich: (count: number) =>
      `Die neuen Grenzen sollen ab einer Stichprobe zwischen 1 und ${count} gelten. Nennen Sie diese.`,
    frozen: (version: number, since: string) =>
      `Gespeichert. Die Grenzen ${version} sind festgelegt und beurteilen ${since}.`,
    everything: "den ganzen Verlauf",
    from: (day: string) => `alles ab ${day}`,
    until: (since: string, day: string, version: number) =>
      `${since}, bis ${day}, wenn die Grenzen ${version} sie ablösen`,
    outAlready: (first: number, last: number) =>
      `${numbers(first, last)} ${first === last ? "ist" : "sind"} schon ausgelassen.`,
    leftOut: (count: number, numbers: string, cause: string) =>
      `Gespeichert. ${subgroups(count)} ausgelassen (${numbers}): ${cause}.`,
    frozenStay: " Festgelegte Grenzen bleiben, wie sie sind, bis jemand neue festlegt.",
    whichIn:
      "Nichts gespeichert: Es wurde nicht gesagt, welche Stichproben wieder aufzunehmen sind. Laden Sie die Seite neu.",
    takenIn: "Gespeichert. Die Stichproben zählen wieder, und die Karte wurde neu beurteilt.",
    gone: "Dieses Merkmal steht nicht mehr im Prüfplan.",
    renumbered:
      "Seit diese Seite geöffnet wurde, kamen Messungen hinzu oder wurden zurückgenommen, sodass Stichproben nun andere Nummern haben. Laden Sie die Seite neu und sehen Sie noch einmal nach.",
  },
} satisfies typeof english;
