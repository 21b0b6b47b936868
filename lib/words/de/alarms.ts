import { counted } from "../../format/numbers";
import type { alarms as english } from "../en/alarms";

const pieces = (count: number) => counted(count, "Teil", "Teile");
const good = (count: number) => counted(count, "gute Stichprobe", "gute Stichproben");

export const openAndShelved = (open: number, shelved: number): string =>
  `${open === 0 ? "kein offener Alarm" : counted(open, "offener Alarm", "offene Alarme")}${shelved === 0 ? "" : `, ${shelved} zurückgestellt`}`;

export const alarms = {
  title: "Alarme",
  purpose:
    "Ein Ausreißen eines Merkmals ist ein Alarm. Er bleibt hier, bis Ursache und Maßnahme aufgeschrieben sind und gute Stichproben gefolgt sind.",
  facts: {
    open: (count: number) =>
      count === 0 ? "Kein offener Alarm" : counted(count, "offener Alarm", "offene Alarme"),
    unseen: (count: number) => (count === 0 ? "alle quittiert" : `${count} nicht quittiert`),
    shelved: (count: number) => `außerdem ${count} zurückgestellt`,
  },
  toHandover: "Übergabe",
  toPerformance: "Auswertung der Alarme",
  nothing: "Nichts braucht jetzt jemanden",
  noFeatures:
    "Alarme erscheinen von selbst, sobald Messungen eines Merkmals ihre Eingriffsgrenzen oder ihr Muster verlassen.",
  watched: (features: number) =>
    `${counted(features, "Merkmal wird", "Merkmale werden")} beobachtet. Ein neuer Alarm erscheint hier von selbst, ohne Neuladen.`,
  open: "Offen",
  alone: "Jeder für sich",
  shelved: "Zurückgestellt",
  shelvedPurpose: "Von jemandem für eine Weile beiseitegelegt; jeder kommt von selbst zurück.",
  closedLately: "Kürzlich geschlossen",
  lastClosed: (count: number) =>
    count === 1 ? "Der letzte geschlossene Alarm" : `Die letzten ${count} geschlossenen Alarme`,
  more: (count: number) =>
    `${counted(count, "weiterer Alarm", "weitere Alarme")} nicht gezeigt. Die {board} grenzt sie auf eine Linie, ein Teil oder eine Quelle ein.`,
  board: "Schichttafel",
  card: {
    key: "besonderes Merkmal",
    since: "Seit {first}, zuletzt {latest}",
    seenBy: (name: string) => `Quittiert von ${name}`,
    somebody: "jemand",
    onHold: (count: number) => `${pieces(count)} gesperrt`,
    cause: (cause: string) => `Ursache: ${cause}`,
    withdrawn:
      "Die Messungen, auf denen er beruhte, wurden seither zurückgenommen, berichtigt oder ausgelassen",
    shelvedUntil: "Zurückgestellt bis {until}",
  },
  openOnFeature: {
    title: (open: number, shelved: number) => {
      const said = openAndShelved(open, shelved);
      return said.charAt(0).toUpperCase() + said.slice(1);
    },
    first: "Erstes Signal {first}, letztes {latest}",
    lead: "Was geschah, was zu tun ist und wer was getan hat",
  },
  group: {
    title: (count: number, source: string) => `${counted(count, "Alarm", "Alarme")} an ${source}`,
    shared: (time: string, source: string) =>
      `Ihre ersten Signale kamen innerhalb von ${time}, und gemeinsam ist ihnen ${source}. Das kann Zufall sein: Der Suchlauf über alle Merkmale nennt diese Quelle für sie nicht.`,
    suspected: (flag: { source: string; lot: string; did: string; moment: string }) =>
      `${flag.source} stand seit ${flag.lot} im Verdacht; ${flag.did} am ${flag.moment}.`,
    toDrift: "Zur Seite Drift",
  },
  call: {
    sound: "Ton bei einem neuen Alarm",
    vibration: "Vibration",
    muted: "Der Browser hält den Ton zurück, bis diese Seite einmal berührt wurde.",
  },
  next: {
    shelved: "Kommt von selbst zurück.",
    overUnseen: "Vorbei, bevor ihn jemand sah: nachsehen und aufschreiben, was es war.",
    unseen: "Noch hat ihn niemand gesehen.",
    cause: "Die Ursache ist noch zu nennen.",
    action: "Die Maßnahme ist noch aufzuschreiben.",
    close: "Kann geschlossen werden.",
    waits: "Wartet auf gute Stichproben.",
  },
  saved: {
    returned:
      "Gespeichert. Das Merkmal ist wieder normal; nennen Sie die Ursache und schließen Sie den Alarm.",
    yours: "Gespeichert. Der Alarm ist Ihrer: Gehen Sie die Schritte durch.",
    pieces: (count: number, decision: "hold" | "release" | "scrap") =>
      `Gespeichert. ${pieces(count)} ${{ hold: "gesperrt", release: "freigegeben", scrap: "verschrottet" }[decision]}.`,
    found:
      "Gespeichert. Er kann geschlossen werden, sobald das Merkmal wieder normal ist und die Maßnahme sich bewährt hat.",
    shelved: "Gespeichert. Der Alarm kommt von selbst zurück.",
    unshelved: "Gespeichert. Der Alarm ist zurück.",
    closed: "Gespeichert. Der Alarm ist geschlossen.",
    reopened: "Gespeichert. Der Alarm ist wieder offen.",
    other: "Gespeichert.",
  },
  stillHere: "Ihre Eingabe steht noch hier: Sehen Sie an, was neu ist, und senden Sie sie noch einmal.",
  form: {
    longNote: (most: number) => `Nichts gespeichert: Ein Text hat höchstens ${most} Zeichen. Kürzen Sie ihn.`,
    longCause: (most: number) =>
      `Nichts gespeichert: Eine Ursache hat höchstens ${most} Zeichen. Schreiben Sie mehr in den Text darunter.`,
    incomplete:
      "Nichts gespeichert: Dieses Formular war nicht vollständig. Laden Sie die Seite neu und versuchen Sie es noch einmal.",
    nothing: "Nichts gespeichert: Wählen Sie eine Ursache, oder schreiben Sie auf, was getan wurde.",
  },
  page: {
    tab: "Alarm",
    wholeChart: "Ganze Regelkarte",
    happened: "Was geschah",
    acknowledge: "Quittieren: Ich kümmere mich",
    whatYouSee: "Was Sie sehen, wenn Sie mögen",
    onlyRead:
      "Sie können diesen Alarm lesen. Beantworten darf ihn die Schichtleitung oder die Technik; die Rolle vergibt die Verwaltung.",
    pieces: "Teile im Zweifel",
    plan: "Reaktionsplan",
    finding: "Ursache, Maßnahme, Nachweis",
    story: "Wer was getan hat",
    storyPurpose: "Jede Zeile bleibt, wie sie geschrieben wurde.",
    earlier: "Die letzten Male an diesem Merkmal",
    noCause: "Es wurde keine Ursache genannt.",
    firstFrom: (origin: string) => `Das erste Signal kam von ${origin}.`,
    othersOn: (source: string) => `Andere Merkmale an ${source} gaben gleichzeitig Signale.`,
    alsoOpen: (source: string) => `Offene Alarme an ${source} sind auch:`,
    afterOpen: {
      now: ". Sehen Sie dort zuerst nach.",
      before: ". Sehen Sie nach, ob das, was dort getan wurde, auch diesen Alarm erledigt hat.",
      never:
        ". Dass sie sie gemeinsam haben, kann Zufall sein: Der Suchlauf über alle Merkmale nennt diese Quelle für sie nicht.",
    },
    alarm: (id: number) => `Alarm ${id}`,
    several: (count: number, feature: string) => `${count} an ${feature}`,
    changed: "Die Messungen dahinter haben sich geändert",
    changedOn: (moment: string) =>
      `Sie wurden am ${moment} zurückgenommen, berichtigt oder ausgelassen und geben kein Signal mehr. Was geschrieben wurde, bleibt. Schließen Sie den Alarm mit einer Bemerkung.`,
    comesBack: "Er kommt von selbst zurück.",
  },
  find: {
    label: "Festgestellte Ursache",
    another: "Eine andere Ursache als die genannte",
    unknown: "noch nicht bekannt",
    leave: "so lassen: {cause}",
    written: "eine andere, unten geschrieben",
    newCause: "Die neue Ursache",
    newCauseHint: "Wenige Worte; sie steht dann für alle in der Liste.",
    done: "Was getan wurde",
    doneHint: "Zum Beispiel: Aufnahmebolzen gereinigt und neu gesetzt, fünf Teile gut gemessen.",
    save: "Ursache und Maßnahme speichern",
  },
  finding: {
    cause: "Ursache",
    noCause: "noch nicht genannt",
    done: "Maßnahme",
    notDone: "noch nicht aufgeschrieben",
    verification: "Nachweis",
    whenClosed: (count: number, wanted: number) =>
      `${good(count)}, als er geschlossen wurde; der Plan verlangte ${wanted}.`,
    wanted: { normal: "ein Merkmal, das wieder normal ist", cause: "eine Ursache", done: "die Maßnahme" },
    notReady: "Noch nicht zu schließen",
    stillWanted: (what: string) =>
      `Es fehlt noch: ${what}. Was am Prozess zu tun ist, steht im Reaktionsplan.`,
    close: "Den Alarm schließen",
    reopen: "Wieder öffnen",
    whyReopen: "Warum er wieder geöffnet wird",
    whyEarly: "Warum er geschlossen werden kann, bevor genug gute Stichproben gefolgt sind",
    whyChanged: "Warum die Messungen geändert wurden",
    remark: "Bemerkung zum Schließen",
    sinceAction: "seit der Maßnahme",
    sinceSignal: "seit dem letzten Signal; eine Maßnahme ist noch nicht aufgeschrieben",
    noneGood: (since: string, wanted: number) =>
      `Keine gute Stichprobe ${since}. Der Plan verlangt ${wanted}.`,
    enough: (count: number, since: string, wanted: number) =>
      `${good(count)} ${since}; der Plan verlangt ${wanted}.`,
    soFar: (count: number, since: string, wanted: number) =>
      `${count} von ${counted(wanted, "guter Stichprobe", "guten Stichproben")} ${since}.`,
  },
  points: {
    names: {
      "xbar-r": { location: "Mittelwerte", spread: "Spannweiten" },
      "xbar-s": { location: "Mittelwerte", spread: "Standardabweichungen" },
      "i-mr": { location: "Einzelwerte", spread: "Gleitende Spannweiten" },
    },
    caption: (what: string, count: number, doubt: boolean) =>
      `${what}: die letzten ${count} Punkte. Eine Raute liegt jenseits einer Grenze, ein dunkler Kreis gehört zu einem Muster${doubt ? "; die auf dem getönten Grund sind im Zweifel" : ""}.`,
    words: {
      out: "ausgelassen",
      beyond: "jenseits einer Grenze",
      pattern: "in einem Muster",
      within: "innerhalb",
    },
    asTable: "Dasselbe als Tabelle",
    tableCaption: (what: string, count: number) =>
      `${what} der letzten ${count} Stichproben, die neueste zuerst`,
    measured: "Gemessen",
    judged: "Beurteilt",
    of: (what: string, count: number) => `${what} der letzten ${count} Stichproben`,
    newest: (figure: string) => `neueste ${figure}`,
    limits: (lower: string, upper: string) => `Grenzen ${lower} bis ${upper}`,
    beyond: (count: number) => `${count} jenseits einer Grenze`,
  },
  others: {
    remark: "Diese Bemerkung hinterlassen",
    remarkLabel: "Eine Bemerkung für die Nächsten",
    unshelve: "Jetzt zurückholen",
    whyEarly: "Warum er früher zurückkommt",
    fold: "Für eine Weile zurückstellen",
    shelve: "Den Alarm zurückstellen",
    until: "Er kommt von selbst zurück",
    whyWait: "Warum er warten kann",
    whyWaitHint: "Zum Beispiel: Ersatzbolzen bestellt, bis dahin werden alle Teile geprüft.",
  },
  pieces: {
    decided: { hold: "gesperrt", release: "freigegeben", scrap: "verschrottet" },
    outside: "außerhalb der Toleranz",
    elsewhere: (alarm: number) => `auch gesperrt unter Alarm ${alarm}`,
    none: "Kein Teil zum Sperren bekannt",
    noSignal: "Die Messungen, auf denen dieser Alarm beruhte, geben kein Signal mehr.",
    noSerial:
      "Die zweifelhaften Messungen nennen keine Teilenummer. Sperren Sie, was in dieser Zeit gefertigt wurde, nach Los und Behälter.",
    choose: (count: number) => `Einzelne Teile wählen (alle ${count})`,
    see: (count: number) => `Die Teile ansehen (alle ${count})`,
    where: "Wo sie sind, oder warum",
    whereHint:
      "Zum Beispiel: Behälter 12, dabei 40 nicht gemessene Teile. Freigeben und Verschrotten verlangen den Grund und wer es entschieden hat.",
    onHold: (count: number) => `${pieces(count)} gesperrt.`,
    caution:
      "Teile, die in dieser Zeit gefertigt und nicht gemessen wurden, sind ebenfalls im Zweifel: Die Liste kann sie nicht kennen. Ob ein Teil verwendet werden darf, entscheiden die Zeichnung, die Anforderungen des Kunden und das Verfahren des Betriebs für fehlerhafte Teile durch dessen befugte Personen.",
    piece: (id: number) => `Teil ${id}`,
    lot: (code: string) => `Los ${code}`,
    fixture: (code: string) => `Vorrichtung ${code}`,
    noDoubt: "nicht mehr im Zweifel",
    holdAll: (count: number) => (count === 1 ? "Das eine Teil sperren" : `Alle ${count} Teile sperren`),
    hold: "Gewählte sperren",
    release: "Gewählte freigeben",
    scrap: "Gewählte verschrotten",
    noGoodBefore: "Davor kam keine gute Stichprobe",
    lastGood: (moment: string) => `Die letzte gute Stichprobe wurde ${moment} gemessen`,
    noGoodSince: "eine gute ist noch nicht gefolgt",
    goodSince: "danach folgte eine gute",
    since: (count: number, from: string, to: string) =>
      `Seither ${pieces(count)}, gemessen ${from} bis ${to}`,
    nameless: (count: number) =>
      ` ${counted(count, "Messwert darunter nennt", "Messwerte darunter nennen")} kein Teil.`,
  },
  steps: {
    plans: {
      feature: "Der Reaktionsplan dieses Merkmals",
      part: "Der Reaktionsplan dieses Teils",
      default:
        "Der übliche Plan für Merkmale dieser Art; einen eigenen kann die Technik im Prüfplan schreiben",
    },
    version: (version: number) => `, Fassung ${version}`,
    ticked: (ticked: number, all: number) =>
      `${ticked} von ${counted(all, "Schritt", "Schritten")} abgehakt.`,
    newer: (version: number | null) =>
      ` Für Alarme von jetzt an gilt ${version === null ? "ein anderer" : `eine andere Fassung, ${version}`}.`,
    notTicked: "(nicht abgehakt)",
  },
  byItself: "Von selbst:",
  deeds: {
    raised: "durch Messungen ausgelöst",
    again: "das Ausreißen ging nach der Rückkehr weiter",
    returned: "das Merkmal ist wieder normal",
    withdrawn: "die Messungen, auf denen er beruhte, geben kein Signal mehr",
    acknowledged: "hat quittiert",
    step: (done: boolean, step: number, words: string) =>
      `hat Schritt ${step} ${done ? "abgehakt" : "zurückgenommen"}: ${words}`,
    hold: (count: number) => `hat ${pieces(count)} gesperrt`,
    release: (count: number) => `hat ${pieces(count)} freigegeben`,
    scrap: (count: number) => `hat ${pieces(count)} verschrottet`,
    cause: (cause: string) => `hat die Ursache genannt: ${cause}`,
    action: "hat aufgeschrieben, was getan wurde",
    note: "hat eine Bemerkung hinterlassen",
    shelved: "hat ihn zurückgestellt",
    shelvedUntil: (moment: string) => `hat ihn bis ${moment} zurückgestellt`,
    unshelvedItself: "er kam von selbst zurück",
    unshelved: "hat ihn zurückgeholt",
    closed: "hat ihn geschlossen",
    closedAfter: (count: number, wanted: number) =>
      `hat ihn nach ${counted(count, "guter Stichprobe", "guten Stichproben")} geschlossen (der Plan verlangt ${wanted})`,
    reopened: "hat ihn wieder geöffnet",
    quoted: (note: string) => `„${note}“`,
  },
  happened: {
    points: {
      "xbar-r": { one: "Ein Stichprobenmittelwert", many: "Stichprobenmittelwerte" },
      "xbar-s": { one: "Ein Stichprobenmittelwert", many: "Stichprobenmittelwerte" },
      "i-mr": { one: "Ein Teil", many: "Teile" },
      counts: { one: "Eine Stichprobe", many: "Stichproben" },
    },
    memory: (many: string, below: boolean) =>
      `Die letzten ${many} liegen zusammen weiter ${below ? "unter" : "über"} der Mittellinie, als Zufall ergibt: eine kleine Verschiebung, die anhält.`,
    trend: (of: number, many: string, up: boolean) =>
      `${of} ${many} in Folge sind ${up ? "gestiegen" : "gefallen"}, jeder Wert über den vorigen hinaus.`,
    alternation: (of: number, many: string) =>
      `${of} ${many} gingen abwechselnd auf und ab, wie wenn zwei Quellen sich abwechseln.`,
    within: (of: number, many: string) =>
      `${of} ${many} in Folge blieben näher an der Mitte, als Zufall ergibt.`,
    away: (of: number, many: string) =>
      `${of} ${many} in Folge blieben der Mitte fern, gleich auf welcher Seite.`,
    limit: (one: string, up: boolean) =>
      `${one} lag ${up ? "über der oberen" : "unter der unteren"} Eingriffsgrenze.`,
    run: (of: number, many: string, up: boolean) =>
      `${of} ${many} in Folge lagen ${up ? "über" : "unter"} der Mittellinie.`,
    far: (share: { count: number; of: number }, many: string, up: boolean, how: string) =>
      `${share.count === share.of ? `${share.of} ${many} in Folge` : `${share.count} von ${share.of} ${many.endsWith("n") ? many : `${many}n`}`} lagen weit ${up ? "über" : "unter"} der Mittellinie (${how}).`,
    near: (distance: number) => {
      if (distance === 1) return "jenseits eines Drittels des Wegs zur Grenze";
      return distance === 2 ? "jenseits zweier Drittel des Wegs zur Grenze" : `jenseits ${distance} Sigma`;
    },
    spread: (single: boolean, less: boolean, times: number | null) => {
      const what = single
        ? "Aufeinander folgende Teile unterschieden sich"
        : "Die Teile einer Stichprobe unterschieden sich untereinander";
      const more = less ? "weniger" : "mehr";
      return times === null
        ? `${what} ${more}, als die Eingriffsgrenzen zulassen.`
        : `${what} ${more} als sonst, ${times}-mal in Folge.`;
    },
    morePatterns: (count: number) => (count === 1 ? "Ein weiteres Muster." : `${count} weitere Muster.`),
  },
} satisfies typeof english;
