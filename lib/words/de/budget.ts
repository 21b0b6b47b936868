import { counted, whole } from "../../format/numbers";
import type { budget as english } from "../en/budget";

const dative = (count: number) => counted(count, "Merkmal", "Merkmalen");

export const budget = {
  title: "Alarmhaushalt",
  purpose:
    "Karten, die lange genug beobachtet werden, geben durch Zufall Signale. Hier steht, wie oft unter den geltenden Regeln, und was jede Regel dafür einbringt.",
  adding: "Zusammenzählen, was die geltenden Regeln kosten",
  from: "Woher sie kommen",
  fromPurpose: (count: number) =>
    `${count === 1 ? "Das Merkmal, das" : `Die ${count} Merkmale, die`} am meisten ${count === 1 ? "gibt" : "geben"}. Was oft gemessen wird, gibt viele, gleich nach welchen Regeln.`,
  offAndOn: "Regeln weglassen und hinzunehmen",
  offAndOnPurpose:
    "Eine Regel weniger oder mehr, für alle Merkmale eines Plans: die Fehlalarme, die sie spart oder kostet, und wie viele Stichproben lang eine bleibende Verschiebung dann unbemerkt bleibt.",
  workingOut: "Ausrechnen, was jede Regel kostet",
  plant: "Das ganze Werk",
  perShift: "Fehlalarme je Schicht",
  usedUp: (share: string) => `${share} davon sind verbraucht, bevor etwas Wirkliches geschehen ist.`,
  parts: (location: string, spread: string, memory: string | null) =>
    `${location} von den Karten für Mittelwerte und Einzelwerte, ${spread} von denen für die Streuung${memory === null ? "" : `, ${memory} von mitbeobachtenden EWMA- und CUSUM-Karten`}; ein Fehlalarm beider Karten zugleich zählt einmal.`,
  operator: (acceptable: number, most: number) =>
    `Für eine Person: Im Mittel sind ${acceptable} Alarme in der Stunde sehr wahrscheinlich annehmbar, ${most} das Höchste, was zu bewältigen ist (ANSI/ISA-18.2-2016, aus dem Gedächtnis), wenn eine Person alle Alarme des Werks annimmt.`,
  rateAllHours:
    "Messhäufigkeit: {from} bis {to}, alle Stunden, weil in keiner Schicht der Einstellungen etwas gemessen wurde.",
  rate: (shifts: number) =>
    `Messhäufigkeit: {from} bis {to}, ${counted(shifts, "Schicht", "Schichten")}, in denen etwas gemessen wurde.`,
  plan: "Plan",
  ofPlan: (chart: string, rules: string, count: number) =>
    `${chart}, ${rules}: ${counted(count, "Merkmal", "Merkmale")}`,
  show: "Anzeigen",
  none: "Noch keine Merkmale",
  toPlan: "Zum Prüfplan",
  noneWhy:
    "Sobald der Prüfplan Merkmale hat und sie gemessen werden, sagt diese Seite, mit wie vielen Fehlalarmen eine Schicht zu rechnen hat.",
  idle: "Noch kein Alarmhaushalt",
  toIntake: "Zur Datenannahme",
  idleWhy: (days: number) =>
    `In den ${days} Tagen vor {when} wurde nichts gemessen; es gibt also keine Messhäufigkeit, mit der zu rechnen wäre. Der Alarmhaushalt erscheint mit den nächsten Messungen; zu reparieren ist nichts. Was ein Regelsatz je 1000 Stichproben kostet, steht auf der Planseite jedes Merkmals.`,
  biggest: {
    caption: "Merkmale mit den meisten Fehlalarmen",
    chartOf: (chart: string, size: number) => `${chart} aus ${size}`,
    and: (rules: string, memory: string) => `${rules} und ${memory}`,
    heads: {
      feature: "Merkmal",
      part: "Teil",
      chart: "Karte für",
      rules: "Regeln",
      rate: ["Stichproben", "je Schicht"],
      run: ["Stichproben", "je Fehlalarm"],
      perShift: ["Fehlalarme", "je Schicht"],
      between: ["Schichten", "zwischen zweien"],
      share: ["Anteil", "am Werk"],
    },
    noneExpected: "keiner zu erwarten",
  },
  tradeOff: {
    cells: (pace: string, count: number) =>
      `Jedes Feld: Stichproben, bis die Lagekarte für eine bleibende Verschiebung ein Signal gibt, und darunter dasselbe in Arbeitsschichten, bei ${pace} Stichproben je Schicht, dem Median von ${dative(count)}. Verschiebungen sind in Sigma des eingezeichneten Punktes.`,
    ofReadings: (size: number, share: string) =>
      ` Bei Mittelwerten aus ${size} ist 1 Sigma des Punktes ${share} Sigma der Einzelwerte.`,
    simulated: "„≈“ ist simuliert, alles andere exakt.",
    caption: (chart: string) => `Regeln weniger und mehr für ${chart}`,
    heads: { change: "Regeln", perShift: "Fehlalarme je Schicht", difference: "Unterschied" },
    thisIsInForce: "keiner, das gilt jetzt",
    shift: " Verschiebung: Stichproben, Arbeitsschichten",
    inForce: "Wie geltend",
    without: "− ohne",
    with: "+ mit",
    notKnown: "Schichten nicht bekannt",
  },
  group: {
    summary: (count: number) =>
      count === 1
        ? "Das eine Merkmal dieses Plans, und wo seine Regeln zu ändern sind"
        : `Die ${count} Merkmale dieses Plans, und wo ihre Regeln zu ändern sind`,
    rules: "Geltende Regeln",
    features: "Merkmale",
    who: "Die Technik ändert die Regeln auf der Planseite eines Merkmals, mit einem Grund.",
    more: (count: number) => `Und ${count} weitere; der Prüfplan nennt sie alle.`,
  },
  how: {
    title: "Wie das berechnet ist",
    lines: (runs: number): [term: string, words: string, source: string][] => [
      [
        "Fehlalarme je Schicht",
        "Summe über die Merkmale aus Stichproben je Schicht / Stichproben je Fehlalarm. Das Zweite ist die mittlere Lauflänge, wenn nichts falsch ist, der Lagekarte und der Streuungskarte zusammen: Die Regeln, die für die Streuung gelten, sind mit der wahren, schiefen Verteilung der Spannweite oder der Standardabweichung gerechnet. Eine mitbeobachtende EWMA- oder CUSUM-Karte fügt einen in ihrer eigenen mittleren Lauflänge hinzu. Anzahlen sind wie normalverteilte Messwerte ohne Streuungskarte gerechnet.",
        "Übliche Praxis, ohne Quelle",
      ],
      [
        "Stichproben je Schicht",
        "Messwerte der letzten zwei Wochen / Stichprobenumfang / Schichten, in denen etwas gemessen wurde. Geschlossene Tage und ruhende Nächte zählen nicht.",
        "Übliche Praxis, ohne Quelle",
      ],
      [
        "Mittlere Lauflänge",
        "Exakt, wo die Regeln sich als Markow-Kette dessen verfolgen lassen, was sie alle zusammen behalten, wie es alle Regeln über Zonen und Seiten tun; Trends und Wechsel allein oder neben Grenzen über eine Integralgleichung.",
        "C. W. Champ und W. H. Woodall, Technometrics 29 (1987) 393–399 (aus dem Gedächtnis)",
      ],
      [
        "Zahlen mit ≈",
        `Andere Regelsätze sind mit dem Code simuliert, der gemessene Punkte beurteilt, ${whole(runs)} Lauflängen je Zahl aus festem Startwert. Der Standardfehler, etwa 2 % der Zahl, ist zu lesen, wenn der Zeiger auf ihr ruht.`,
        "Standardfehler eines Mittelwerts",
      ],
      [
        "Was es auslässt",
        "Messwerte gelten als normalverteilt und unabhängig, und Grenzen als die wahren. Ähnliche Nachbarn und Grenzen aus einem kurzen Vorlauf geben mehr Fehlalarme, als hier steht. Dass Signale einer Pechsträhne zu einem Alarm zusammengehen, gibt etwas weniger.",
        "C. P. Quesenberry, Journal of Quality Technology 25 (1993) 237–247 (aus dem Gedächtnis)",
      ],
      [
        "Eine Person",
        "Etwa 6 Alarme in der Stunde sind im Mittel sehr wahrscheinlich annehmbar, etwa 12 das Höchste, was zu bewältigen ist. Die Zahlen stammen aus Leitwarten; wo ein Alarm einen Gang zur Maschine bedeutet, lassen sich weniger annehmen.",
        "ANSI/ISA-18.2-2016 (aus dem Gedächtnis); IEC 62682 nennt dieselben",
      ],
    ],
  },
  load: {
    sentence: (perShift: string, hours: string, acceptable: string) =>
      `In einer Schicht von ${hours} h sind etwa ${perShift} Fehlalarme zu erwarten; eine Person kann etwa ${acceptable} Alarme aller Art annehmen (ISA-18.2).`,
    advice: {
      acceptable: "",
      heavy:
        " Für wirkliche bleibt wenig Raum: Lassen Sie Regeln weg, wo ein spätes Signal am wenigsten kostet.",
      "too many":
        " Wirkliche gehen darunter verloren: Lassen Sie Regeln weg, messen Sie seltener, oder teilen Sie die Alarme auf.",
    },
  },
} satisfies typeof english;
