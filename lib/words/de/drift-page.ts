import { counted, whole } from "../../format/numbers";
import type { driftPage as english } from "../en/drift-page";

const features = (count: number) => counted(count, "Merkmal", "Merkmale");
const sources = (count: number) => counted(count, "Quelle", "Quellen");
const pieces = (count: number) => counted(count, "Teil", "Teile");
const lots = (count: number) => counted(count, "Los", "Lose");
const dative = (count: number, unit: "piece" | "lot") =>
  unit === "piece" ? counted(count, "Teil", "Teilen") : counted(count, "Los", "Losen");

export const driftPage = {
  title: "Drift",
  purpose:
    "Welche Vorrichtung, welches Werkzeug, Messmittel oder welche andere Quelle sich verschoben hat, seit wann, und wie lange es noch gut geht.",
  planted: "Was in der Demo eingebaut wurde",
  empty: "Noch nichts zu vergleichen",
  toIntake: "Zur Datenannahme",
  emptyWhy:
    "Quellen werden verglichen, sobald Messdateien kommen, die Lose, Vorrichtungen, Werkzeuge oder Messmittel nennen.",
  moved: (count: number) =>
    count === 0
      ? "Nichts hat sich verschoben"
      : counted(count, "Quelle hat sich verschoben", "Quellen haben sich verschoben"),
  noneOf: (count: number) =>
    `Von ${counted(count, "Quelle", "Quellen")} hat sich keine verschoben, soweit diese Messungen es zeigen. Darunter steht, wie klein eine Verschiebung sein könnte, die man gesehen hätte.`,
  firstNamed: "Zuerst genannt {when}.",
  faint: (scans: number) =>
    `${counted(scans, "Suchlauf hatte", "Suchläufe hatten")} seither zu wenig Beleg; nach dreien schließt sich die Meldung von selbst.`,
  confidence: "Gewissheit",
  above: (share: string) => `über ${share}`,
  size: "Größe",
  features: "Merkmale",
  of: (count: number, all: number) => `${count} von ${all}`,
  touching: {
    scattered: (who: string) => `Streuung durch ${who}`,
    moved: (who: string, size: string) => `Verschoben durch ${who}: ${size}`,
    ofTolerance: (share: string) => `, ${share} der Toleranz`,
    colour: "Die Regelkarte danach färben",
    evidence: "Belege",
  },
  ended: {
    title: (count: number) => counted(count, "beendete Meldung", "beendete Meldungen"),
    how: "durch ein Ereignis, durch jemanden oder weil der Beleg verschwand",
    read: (sentence: string) => `Sie lautete: ${sentence}`,
    answered: (lot: string, from: string) =>
      `durch ein Ereignis beendet; von da an wird neu beurteilt, und was seit ${lot}${from === lot ? "" : ` (vielleicht schon seit ${from}, also von dort an)`} war, bleibt beiseite.`,
    closed: (by: string | null, remark: string) =>
      `geschlossen${by === null ? "" : ` von ${by}`}: ${remark} Sie bleibt geschlossen, solange dieselbe Änderung gefunden wird.`,
    faint: "drei Suchläufe in Folge hatten zu wenig Beleg.",
  },
  alternatives: {
    none: (who: string) =>
      `Keine andere Quelle lief an denselben Teilen so genau mit, dass sie für ${who} gehalten werden könnte.`,
    aliased: " lief an denselben Teilen",
    alike: " erklärt es fast ebenso gut",
    tell: (doubt: string, run: string) => `${doubt}. Um sie zu unterscheiden: ${run}.`,
    doubts: {
      open: "die Daten können es nicht unterscheiden",
      less: "weniger wahrscheinlich",
      against: "das Muster über die Merkmale spricht dagegen",
    },
    pairs: "Teile je Paar seit der Änderung",
    never: "nie",
    onset: (lot: string) => `Höchstwahrscheinlich in Los ${lot} geändert`,
    between: (from: string, to: string) => `, mit 90 % Gewissheit zwischen ${from} und ${to}`,
    lots: (count: number) => `Seither ${lots(count)} damit.`,
  },
  close: {
    label: "Diese Meldung schließen",
    title: "Die Meldung zu {source} schließen",
    advice:
      "Wurde an {source} etwas getan, so tragen Sie stattdessen ein Ereignis ein: Von da an wird neu beurteilt. Eine geschlossene Meldung bleibt geschlossen, solange dieselbe Änderung gefunden wird.",
    remark: "Bemerkung",
    hint: "Was Sie gefunden haben, auch „keine Ursache gefunden“.",
    saving: "Wird gespeichert …",
  },
  log: {
    open: "Ereignis eintragen",
    title: "Was an einer Quelle getan wurde",
    source: "Quelle",
    what: "Was getan wurde",
    kinds: {
      repaired: "repariert",
      changed: "gewechselt (neues Teil, neue Schneide)",
      adjusted: "eingestellt",
      calibrated: "kalibriert",
      moved: "umgesetzt oder neu eingerichtet",
    },
    when: "Wann",
    whenHint: "Nach der Uhr des Werks. Lose davor werden nicht mehr mit Losen danach verglichen.",
    note: "Notiz",
    noteHint: "Zum Beispiel: Aufnahmebolzen ersetzt.",
    save: "Dieses Ereignis eintragen",
    saving: "Wird gespeichert …",
  },
  answers: {
    marked: "Nichts gespeichert: Sehen Sie die unten markierten Felder an.",
    chooseSource: "Wählen Sie eine Quelle.",
    chooseWhat: "Wählen Sie, was getan wurde.",
    enterTime: "Geben Sie Tag und Uhrzeit ein.",
    noSuchTime: "Diesen Tag oder diese Uhrzeit gibt es nicht.",
    ahead: "Das liegt in der Zukunft. Tragen Sie es ein, wenn es getan ist.",
    long: "Höchstens 500 Zeichen.",
    logged: (source: string) =>
      `Gespeichert. ${source} wird von diesem Ereignis an neu verglichen; frühere Lose zählen dafür nicht mehr.`,
    justEnded: "Nichts wurde abgebrochen: Der Suchlauf war gerade zu Ende.",
    noRemark: "Nichts gespeichert: Schreiben Sie, was Sie gefunden haben, auch „keine Ursache gefunden“.",
    longRemark: "Nichts gespeichert: höchstens 500 Zeichen.",
    closed: "Gespeichert. Die Meldung ist geschlossen.",
  },
  state: {
    asOf: (scan: { sources: number; parts: number; measurements: number; seconds: string }) =>
      `Stand {when}: ${sources(scan.sources)} an ${counted(scan.parts, "Teil", "Teilen")} über deren letzte 60 Lose, ${whole(scan.measurements)} Messungen, ${scan.seconds} s.`,
    soon: "beginnt gleich",
    percent: (step: string, share: number) => `${step}, ${share} % fertig`,
    first: "Der erste Suchlauf ist im Gange",
    newer: "Ein neuerer Suchlauf ist im Gange",
    cancel: "Suchlauf abbrechen",
    cancelling: "Wird abgebrochen …",
    cancelled: (who: string) => `${who} hat den Suchlauf abgebrochen`,
    cancelledAt: (isFirst: boolean) =>
      `am {when}. ${isFirst ? "Er" : "Was unten steht, ist von vorher; er"} beginnt neu mit den nächsten Messungen.`,
    scanNow: "Jetzt suchen",
    beginning: "Beginnt …",
    failed: "Der letzte Suchlauf gelang nicht",
    again: (isFirst: boolean) =>
      `Er wird innerhalb einer Minute wiederholt${isFirst ? "." : "; was unten steht, ist von vorher."}`,
  },
  evidence: {
    title: (who: string) => `Belege: ${who}`,
    purpose:
      "Was es zeigt, was es sonst gewesen sein könnte und wohin es führt. Jedes Merkmal führt zu seiner Regelkarte, nach dieser Quelle gefärbt, mit der Änderung markiert.",
    over: (source: string, did: string, moment: string) =>
      `Diese Meldung ist beendet: ${source} wurde am ${moment} ${did}. Was hier steht, wurde davor gefunden.`,
    ended: (moment: string) => `Diese Meldung endete am ${moment}. Was hier steht, wurde davor gefunden.`,
    leads: "Wohin es führt",
    else: "Was es sonst sein könnte",
    differences: (count: number, source: string) =>
      `Mittel aus ${counted(count, "verschobenem Merkmal", "verschobenen Merkmalen")}, in Sigma, jedes in seiner Richtung: ${source} gegen den Rest jedes Loses, mit 90-%-Band`,
    noneBeside: ". Daneben lief keine andere Quelle dieser Art.",
    beside: (others: string, source: string) =>
      `; daneben ${others}, die nur deshalb in die andere Richtung gehen, weil ${source} in ihrem Rest steckt.`,
    shaded: "Getönt: die Lose, in denen es begonnen haben kann.",
    leaves: (source: string, lot: string) => `${source} verlässt den Rest der Lose ab ${lot}`,
    by: (sigma: string) => `, um ${sigma} Sigma`,
    course: "Verlauf jeder Quelle",
    picture: (source: string) => `Verlauf von ${source} gegen die Nachbarn, in Sigma`,
    later: (lot: string) => `${lot} und später`,
    scatterCaption: (count: number, source: string, lot: string) =>
      `${counted(count, "Merkmal streut", "Merkmale streuen")} seit ${lot} an ${source} stärker`,
    movedCaption: (count: number, source: string, lot: string, still: number) =>
      `${counted(count, "Merkmal hat", "Merkmale haben")} sich seit ${lot} mit ${source} verschoben, ${still} nicht`,
    heads: {
      feature: "Merkmal",
      state: "Seither",
      difference: "Verschiebung ± Standardfehler",
      share: "Der Toleranz",
      sigma: "In Sigma",
      chance: "Wahrscheinlich verschoben",
    },
    scatters: "streut stärker",
    up: "nach oben",
    down: "nach unten",
    still: "nicht verschoben",
    noWidth: "keine Toleranzbreite",
  },
  forecast: {
    lot: "Nur dieses Los wich ab, also setzt sich nichts fort. Seine Teile sind vielleicht noch anzusehen.",
    step: "Es hat sich auf einmal verschoben und bleibt, wo es ist; es gibt also keinen Verlauf und keine Vorhersage.",
    none: "Für eine Änderung dieser Art gibt es keine Vorhersage.",
    caption:
      "Wann der Mittelwert seine Grenzen erreicht, wenn es so weitergeht: Median, in Klammern 90 von 100 Fällen",
    limits: {
      control: { lower: "unteres Ende der üblichen Streuung", upper: "oberes Ende der üblichen Streuung" },
      capability: {
        lower: "unten 3 Sigma innerhalb der Toleranz",
        upper: "oben 3 Sigma innerhalb der Toleranz",
      },
      tolerance: { lower: "untere Toleranzgrenze", upper: "obere Toleranzgrenze" },
    },
    heads: {
      feature: "Merkmal",
      limit: "Grenze",
      bound: "Bei",
      level: "Mittelwert jetzt",
      pieces: "Teile bis dahin",
      lots: "Lose bis dahin",
    },
    ofLife: (share: number) => `bei ${share} % der Standzeit einer Schneide`,
    notForeseeable: "Noch nicht abzusehen, denn sie könnten ebenso stillstehen:",
    of: (feature: string) => `Vorhersage für ${feature}`,
    spoken: (said: { feature: string; level: string; limit: string; bound: string; when: string }) =>
      `${said.feature}: Mittelwert jetzt ${said.level}, ${said.limit} ${said.bound}: ${said.when}.`,
    control: "übliche Streuung",
    scatter:
      "Die übliche Streuung ist 3 Sigma / √n um den Mittelwert vor der Änderung, mit n als der üblichen Zahl der Teile dieser Quelle in einem Los. Sie ist nicht die Eingriffsgrenze der Regelkarte des Merkmals, die für Stichproben aus allen Quellen gerechnet ist.",
    before: "vorher",
    now: "jetzt",
    axis: "Teile dieser Quelle",
    moreThan: (count: number, unit: "piece" | "lot") => `in mehr als ${dative(count, unit)}`,
    reached: "erreicht",
    about: (count: number, unit: "piece" | "lot", low: number, high: number | null) =>
      `in etwa ${dative(count, unit)} (${low} bis ${high ?? "viel mehr"})`,
  },
  grid: {
    title: "Quellen nach Losen",
    purpose:
      "Wie weit jede Quelle vom Rest desselben Loses lag, in Sigma, gemittelt über ihre Merkmale; was schon immer anders war, ist abgezogen.",
    part: "Teil in der Tafel",
    lots: "Gezeigte Lose",
    earlier: "Frühere Lose",
    latest: "Letzte Lose",
    asTable: "Dasselbe als Tabelle der Zahlen",
    caption:
      "Abweichung vom Rest desselben Loses, in Sigma über die Merkmale der Quelle; allein: vom üblichen Stand",
    lot: "Los",
    begun: "Begonnen",
    didNotRun: "lief nicht",
    aloneFigure: (figure: string) => `${figure} allein`,
    lower: (sigma: number) => `tiefer, −${sigma} Sigma und mehr`,
    higher: (sigma: number) => `höher, +${sigma} und mehr`,
    ranAlone: "lief allein: im Los ist nichts zum Vergleichen",
    wedge: "Keil",
    doneBefore: "vor diesem Los wurde daran etwas getan",
    movedSince: "verschoben seit diesem Los",
    isEmpty: "leer: lief nicht",
    where: (source: string, lot: string, day: string) => `${source} in ${lot}, ${day}`,
    amount: (figure: string, half: string) => `${figure}\u00a0±\u00a0${half}\u00a0Sigma`,
    aloneWords: (where: string, count: number, amount: string) =>
      `${where}: lief allein, ${pieces(count)}; ${amount} vom üblichen Stand, und Lose unterscheiden sich.`,
    words: (where: string, amount: string, count: number) =>
      `${where}: ${amount} vom Rest des Loses, ${pieces(count)}.`,
    before: (did: string, moment: string) => `Bevor die Quelle am ${moment} ${did} wurde.`,
    afresh: (source: string, did: string, moment: string, count: number) =>
      `${source}: neu beurteilt, seit sie am ${moment} ${did} wurde; ${count === 0 ? "noch keine Lose" : `seither ${lots(count)}`}. Die Felder vor dem Keil sind von davor.`,
    walk: {
      source: "Quelle",
      from: "{lot}, ab {day}",
      kinds: {
        fixture: "Vorrichtungen",
        tool: "Werkzeuge",
        machine: "Maschinen",
        gauge: "Messmittel",
        operator: "Bediener",
        setup: "Rüstzustände",
      },
      alone: ", jede allein in ihren Losen: gegen ihren üblichen Stand",
      point: "Zeigen Sie auf ein Feld, oder gehen Sie mit den Pfeiltasten über die Felder.",
      didNotRun: "{source} lief nicht in {lot}, {day}.",
      moved: "Verschoben seit diesem Los.",
      logged: "Eingetragen: {words}.",
    },
  },
  quiet: {
    title: (count: number) => `${sources(count)} ohne Änderung`,
    how: "und wie klein eine Änderung sein könnte, die man gesehen hätte",
    caption: (count: number) =>
      `${counted(count, "ruhige Quelle", "ruhige Quellen")}, die mit dem meisten Beleg zuerst`,
    heads: {
      source: "Quelle",
      seen: "Ein Sprung eines Merkmals ist zu sehen ab",
      evidence: "Log-Beleg",
      needed: "Nötig",
      lots: "Lose",
    },
    cannot: "nicht zu sagen: daneben oder davor lief nichts",
    seen: (sigma: string) => `${sigma} Sigma; weniger, wenn mehrere Merkmale gemeinsam gehen`,
    rival: (who: string) => `nicht zu unterscheiden von ${who}, verschoben: Beide liefen an denselben Teilen`,
    afresh: (did: string, moment: string) =>
      `neu beurteilt, seit sie am ${moment} ${did} wurde; noch keine Lose`,
    explained: "fiel zuerst auf; davon bleibt nichts, wenn abgezogen ist, was die gefundenen Quellen taten",
    small: "eine Änderung wurde gefunden, zu klein oder an einem einzigen Merkmal; siehe unten",
    lots: (count: number) =>
      `Auch ${counted(count, "Los wurde", "Lose wurden")} angesehen, und außer den oben genannten fällt keines durch sein Material auf.`,
    silent: (count: number) => `${counted(count, "Änderung", "Änderungen")} gefunden und nicht gemeldet`,
    silentWhy: "zu klein, um zu zählen, oder an einem einzigen Merkmal",
    since: (who: string, lot: string) => `${who} seit ${lot}`,
    leftOut: (count: number) => `${features(count)} nicht untersucht`,
    andWhy: "und warum",
    allOf: (part: string) => `Alles an ${part}`,
    temperature: "Teiletemperatur",
    piecesOf: (part: string) => `alle Teile von ${part}`,
  },
  standing: {
    title: "Ständige Unterschiede",
    purpose:
      "Wo eine Quelle schon immer anders lag als die anderen ihrer Art. Das ist keine Drift, und nichts hier wird gemeldet.",
    caption: (count: number, errors: number) =>
      `${counted(count, "ständiger Unterschied", "ständige Unterschiede")} von mehr als ${errors} Standardfehlern`,
    none: (errors: number) =>
      `Keine Quelle liegt um mehr als ${errors} Standardfehler anders als die anderen ihrer Art.`,
    heads: {
      source: "Quelle",
      feature: "Merkmal",
      offset: "Von den anderen",
      error: "± Standardfehler",
      share: "Der Toleranz",
      sigma: "In Sigma",
      scatter: "Streuung gegen die anderen",
      pieces: "Teile",
    },
    times: (ratio: string) => `${ratio}-fach`,
  },
  atEvents: {
    title: "Geändert bei einem Ereignis",
    purpose:
      "Was nach einem eingetragenen Ereignis anders ist als davor. Der Suchlauf hält es für beabsichtigt und meldet nichts: Bestätigen Sie, dass es so war, denn auch eine Kalibrierung kann misslingen.",
    caption: (count: number) =>
      `${counted(count, "Ereignis", "Ereignisse")}, bei dem sich zwei oder mehr Merkmale um über 4 Standardfehler änderten`,
    mostOfAll: (count: number, all: number) => `${count} von ${all}, vor allem`,
    heads: { source: "Quelle", event: "Ereignis", at: "Wann", shift: "Seither", features: "Merkmale" },
  },
  latestEvents: {
    title: "Letzte Ereignisse",
    caption: (count: number) => `Letztes Ereignis von ${counted(count, "Quelle", "Quellen")}`,
    none: "Noch keine Ereignisse",
    log: "Tragen Sie ein, was gewechselt, repariert, eingestellt, kalibriert oder umgesetzt wird: Von da an wird eine Quelle neu verglichen.",
    heads: {
      source: "Quelle",
      event: "Ereignis",
      at: "Wann",
      note: "Notiz",
      by: "Eingetragen von",
      count: "Ereignisse",
    },
  },
} satisfies typeof english;
