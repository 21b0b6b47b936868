import type { glossary as english } from "../en/glossary";

const VOCABULARY = "ISO 3534-2, Begriffe der angewandten Statistik";
const CHARTS =
  "ISO 7870-2, Shewhart-Qualitätsregelkarten; NIST/SEMATECH e-Handbook of Statistical Methods, Kapitel 6.3";
const CAPABILITY =
  "ISO 22514-2, Prozessfähigkeit und Prozessleistung; NIST/SEMATECH e-Handbook, Abschnitt 6.1.6";
const GAUGES = "ISO 22514-7, Fähigkeit von Messprozessen; das Handbuch der AIAG zur Messsystemanalyse";
const METROLOGY = "JCGM 200, internationales Wörterbuch der Metrologie";
const ALARMS = "IEC 62682, Alarmmanagement; ISA-18.2";

export const glossary = {
  title: "Glossar",
  purpose:
    "Was die Wörter auf diesen Seiten bedeuten und aus welchen Normen und Handbüchern sie kommen; diese sind aus dem Gedächtnis genannt, maßgebend ist die Norm selbst. Wie eine Zahl zustande kommt, steht bei ihr unter „Wie das berechnet ist“.",
  source: (source: string) => `Quelle: ${source}.`,
  see: "Siehe",
  groups: {
    measured: "Was gemessen wird",
    steady: "Ist es stabil",
    moved: "Was hat es verschoben",
    enough: "Ist es gut genug",
    gauge: "Kann das Messmittel es sehen",
    people: "Was Menschen damit tun",
  },
  entries: {
    feature: {
      meaning:
        "Etwas an einem Teil, für das die Zeichnung ein Maß und eine Toleranz nennt, etwa der Durchmesser einer Bohrung. Jedes Merkmal hat seine eigene Qualitätsregelkarte.",
      source: VOCABULARY,
    },
    tolerance: {
      meaning:
        "Was die Zeichnung erlaubt: von der unteren bis zur oberen Toleranzgrenze. Was der Prozess tut, sagt sie nicht; das sagen die Eingriffsgrenzen.",
      source: "ISO 286-1 und ISO 8015 für Maße; ISO 1101 für Form und Lage",
    },
    "key-characteristic": {
      meaning:
        "Ein Merkmal, dessen Streuung für Passung, Funktion oder Sicherheit am meisten zählt und das deshalb beobachtet wird, auch wenn es nie versagt hat.",
      source: "EN 9103 und IATF 16949, in allgemeinen Worten",
    },
    subgroup: {
      meaning:
        "Einige Teile, die nacheinander unter gleichen Bedingungen gefertigt wurden und zusammen als ein Punkt eingetragen werden. Was in ihnen streut, ist das, was der Zufall allein tut.",
      source: CHARTS,
    },
    lot: {
      meaning: "Teile, die zusammen gefertigt oder geliefert wurden, unter einer Nummer bekannt.",
      source: VOCABULARY,
    },
    sources: {
      meaning:
        "Was eine Messung verschieben kann: Vorrichtung, Werkzeug, Maschine, Messmittel, Bediener oder der Rüstzustand eines tragbaren Messgeräts. Nennen die Messungen ihre Quellen, so lässt sich eine Verschiebung auf eine davon zurückführen.",
      source: "Übliche Praxis; die Teile eines Ursache-Wirkungs-Diagramms (K. Ishikawa)",
    },
    "source-event": {
      meaning:
        "Etwas, das an einer Quelle getan wurde: ein Werkzeugwechsel, eine Reparatur, eine Einstellung, eine Kalibrierung.",
      source: "Übliche Praxis",
    },
    "reference-temperature": {
      meaning:
        "Längen sind bei 20 °C festgelegt. Ein warmes Teil misst zu groß; mit seiner Temperatur, seiner Länge und seinem Ausdehnungskoeffizienten wird der Messwert zurückgerechnet.",
      source: "ISO 1, Referenztemperatur",
    },
    "control-chart": {
      meaning:
        "Punkte in zeitlicher Folge zwischen Grenzen, die der Zufall allein fast nie verlässt. Die obere Karte zeigt, wo der Prozess liegt, die untere, wie sehr sich die Teile untereinander unterscheiden.",
      source: CHARTS,
    },
    "control-limits": {
      meaning:
        "Wo die Punkte bleiben, solange nur der Zufall sie bewegt: drei Sigma des Punkts zu beiden Seiten der Mittellinie. Sie kommen aus dem Prozess, nie aus der Zeichnung.",
      source: CHARTS,
    },
    "trial-limits": {
      meaning:
        "Grenzen aus den ersten Stichproben, bevor jemand nachgesehen hat, ob diese unter üblichen Bedingungen entstanden. So heißen sie, bis jemand Grenzen festlegt.",
      source: CHARTS,
    },
    baseline: {
      meaning:
        "Der Abschnitt der Geschichte, aus dem die Grenzen berechnet werden: stabil und unter üblichen Bedingungen gefertigt.",
      source: CHARTS,
    },
    sigma: {
      meaning:
        "Die Standardabweichung: wie weit Werte üblicherweise von ihrem Mittelwert liegen. Innerhalb der Stichproben sagt sie, was der Zufall tut; über die ganze Zeit enthält sie auch jede Verschiebung von Los zu Los.",
      source: "ISO 3534-1; NIST/SEMATECH e-Handbook, Abschnitt 6.3.2",
    },
    "run-rule": {
      meaning:
        "Ein Muster, das der Zufall fast nie ergibt, etwa ein Punkt jenseits einer Grenze oder neun in Folge auf einer Seite. Greift eine Regel, so ist das ein Signal: eine Aufforderung nachzusehen, keine Entscheidung über Teile.",
      source:
        "Western Electric, Statistical Quality Control Handbook (1956); L. S. Nelson, Journal of Quality Technology, Band 16 (1984)",
    },
    "average-run-length": {
      meaning:
        "Wie viele Punkte im Mittel vergehen, bis eine Karte ein Signal gibt. Die Zahl soll groß sein, solange alles in Ordnung ist (wenige Fehlalarme), und klein, sobald sich der Prozess verschoben hat.",
      source: "ISO 7870-1, allgemeine Leitlinien zu Qualitätsregelkarten",
    },
    ewma: {
      meaning:
        "Karten mit Gedächtnis: Jeder Punkt enthält auch, was davor war, sodass kleine Verschiebungen, die anhalten, früher auffallen als durch einzelne Punkte.",
      source: "ISO 7870-6 (EWMA) und ISO 7870-4 (CUSUM); NIST/SEMATECH e-Handbook, Abschnitt 6.3.2",
    },
    "assigned-cause": {
      meaning:
        "Ein Grund, den jemand für einen Punkt gefunden und genannt hat, etwa ein Span unter dem Teil. Nur Stichproben mit einem solchen dürfen bei den Grenzen ausgelassen werden.",
      source: CHARTS,
    },
    drift: {
      meaning:
        "Eine Quelle, deren Teile sich inzwischen von denen ihrer Nachbarn in denselben Losen unterscheiden. Da Lose mit sich selbst verglichen werden, sieht ein schlechter Guss nicht wie eine schlechte Vorrichtung aus.",
      source: "Lineare Modelle mit festen Effekten; jedes Lehrbuch der Regression",
    },
    "change-point": {
      meaning:
        "Das Los, in dem der Unterschied höchstwahrscheinlich begann, und die Lose, zwischen denen er in 9 von 10 Fällen begann.",
      source: "Schätzung von Strukturbrüchen mit kleinsten Quadraten; übliche Praxis",
    },
    confounded: {
      meaning:
        "Zwei Quellen, die immer zusammen liefen, etwa ein Werkzeug auf einer Maschine. Keine Rechnung trennt sie; ein Versuch, in dem sie gekreuzt laufen, tut es, und die Seite nennt ihn.",
      source: "Statistische Versuchsplanung; NIST/SEMATECH e-Handbook, Kapitel 5",
    },
    forecast: {
      meaning:
        "Wie viele Teile, wenn es so weitergeht, gefertigt werden, bis der Mittelwert die Toleranzgrenze erreicht, mit dem Bereich von 90 aus 100 Fällen.",
      source: "Vorhersage aus einer Ausgleichsgeraden; NIST/SEMATECH e-Handbook, Abschnitt 4.5",
    },
    capability: {
      meaning:
        "Was ein stabiler Prozess gegenüber seiner Toleranz leisten kann: Cp teilt die Toleranz durch sechs Sigma innerhalb der Stichproben, Cpk zählt auch, wie weit der Mittelwert von der Mitte liegt. Nur von einem Prozess ohne ungeklärte Signale gesagt.",
      source: CAPABILITY,
    },
    performance: {
      meaning:
        "Dasselbe mit dem Sigma über die ganze Zeit, samt allen Verschiebungen: was geliefert wurde, ob der Prozess stabil war oder nicht.",
      source: CAPABILITY,
    },
    "confidence-bound": {
      meaning:
        "Ein Index aus wenigen Teilen kann Glück sein. Die untere Vertrauensgrenze ist, was sich behaupten lässt: In 95 von 100 solchen Stichproben liegt sie unter dem wahren Index.",
      source: "ISO 22514-4, Schätzwerte und Vertrauensbereiche; NIST/SEMATECH e-Handbook, Abschnitt 6.1.6",
    },
    gate: {
      meaning:
        "Was erfüllt sein muss, bevor ein Index einem Kunden gezeigt wird: genug Lose und Teile, keine offenen Signale, eine Verteilung, die passt, ein Messmittel, das fein genug auflöst.",
      source: CAPABILITY,
    },
    normality: {
      meaning:
        "Die Form der Werte. Im Wahrscheinlichkeitsnetz liegen die Punkte einer passenden Form auf einer Geraden. Form- und Lageabweichungen sind selten normalverteilt, weil sie nicht unter 0 fallen können.",
      source:
        "ISO 5479, Tests auf Abweichung von der Normalverteilung; NIST/SEMATECH e-Handbook, Abschnitt 1.3.3",
    },
    resolution: {
      meaning:
        "Der kleinste Schritt, den ein Messmittel zeigt. Zahlen stehen auf den Seiten mit seinen Nachkommastellen.",
      source: METROLOGY,
    },
    mpe: {
      meaning:
        "Wie weit ein Messmittel nach Angabe seines Herstellers falsch liegen darf, oft A + L/K: ein fester Teil und einer, der mit der Länge wächst.",
      source: `ISO 10360 für Koordinatenmessgeräte; ${METROLOGY}`,
    },
    "gauge-study": {
      meaning:
        "Mehrere Personen messen dieselben Teile mehrmals. Wiederholpräzision ist, was sich unterscheidet, wenn dieselbe Person noch einmal misst, Vergleichpräzision, was sich von Person zu Person unterscheidet.",
      source: `${GAUGES}; ISO 5725`,
    },
    "gauge-share": {
      meaning:
        "Sechs Sigma des Messmittels als Teil der Toleranz: 10 % und weniger ist meist gut, über 30 % meist zu viel.",
      source: GAUGES,
    },
    ndc: {
      meaning:
        "In wie viele Gruppen das Messmittel die gemessenen Teile sicher sortieren kann. Ab fünf ist einer Regelkarte zu trauen.",
      source: GAUGES,
    },
    bias: {
      meaning:
        "Die systematische Messabweichung ist, wie weit ein Messmittel im Mittel neben einem bekannten Normal liegt; die Linearität, wie sich das über seinen Bereich ändert.",
      source: `${METROLOGY}; ${GAUGES}`,
    },
    alarm: {
      meaning:
        "Ein Ausreißen eines Merkmals, das jemand beantworten muss. Nicht quittiert: Niemand hat es aufgenommen. Quittiert: jemand schon. Wieder normal: Der Prozess ist es, der Grund ist noch aufzuschreiben. Zurückgestellt: bis zu einer genannten Zeit beiseitegelegt. Geschlossen: Ursache und Maßnahme sind aufgeschrieben.",
      source: ALARMS,
    },
    "reaction-plan": {
      meaning:
        "Die Schritte, die zu tun sind, wenn ein Merkmal ein Signal gibt; vorher vereinbart und im Prüfplan geschrieben.",
      source: "Die Praxis von AIAG und VDA zu Produktionslenkungsplänen; IATF 16949, in allgemeinen Worten",
    },
    containment: {
      meaning:
        "Teile, die seit der letzten guten Stichprobe gefertigt wurden, liegen gesondert, bis befugte Personen nach dem Verfahren des Betriebs über sie entschieden haben.",
      source: "ISO 9001, Steuerung nichtkonformer Ergebnisse",
    },
    "control-plan": {
      meaning:
        "Für jedes Merkmal: Toleranz, wie oft es gemessen wird, welche Karte und welche Regeln es beurteilen und was zu tun ist. Auch Produktionslenkungsplan genannt.",
      source: "Die Praxis der AIAG zu Produktionslenkungsplänen; IATF 16949, in allgemeinen Worten",
    },
    "alarm-budget": {
      meaning:
        "Wie viele Fehlalarme die geltenden Regeln je Schicht ergäben, wenn sich nie etwas verschöbe, aus genauen Lauflängen und der Messhäufigkeit. Vergleichen Sie es mit dem, was Menschen aufnehmen können.",
      source: `${ALARMS}; ISO 7870-1`,
    },
  },
} satisfies typeof english;
