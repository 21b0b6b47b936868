import { percent } from "../../capability/words";
import { counted } from "../../format/numbers";
import { calendarDayWords } from "../../format/times";
import type { claims as english } from "../en/claims";
import { times } from "./times";

type Amount = { subgroups: number; pieces: number; lots: number | null };
type Least = { subgroups: number; pieces: number; lots: number };

const subgroups = (count: number) => counted(count, "Stichprobe", "Stichproben");
const pieces = (count: number) => counted(count, "Teil", "Teile");
const lots = (count: number) => counted(count, "Los", "Lose");
const readings = (count: number) => counted(count, "Messwert", "Messwerte");
const points = (count: number) => counted(count, "Punkt", "Punkte");

const missing = (amount: Amount, least: Least) =>
  [
    ...(amount.subgroups < least.subgroups
      ? [`${amount.subgroups} von ${counted(least.subgroups, "Stichprobe", "Stichproben")}`]
      : []),
    ...(amount.pieces < least.pieces
      ? [`${amount.pieces} von ${counted(least.pieces, "Teil", "Teilen")}`]
      : []),
    ...(amount.lots !== null && amount.lots < least.lots
      ? [`${amount.lots} von ${counted(least.lots, "Los", "Losen")}`]
      : []),
  ].join(", ");
const have = (amount: Amount) => `${subgroups(amount.subgroups)}, ${pieces(amount.pieces)}`;
const wanted = (least: Least) =>
  `${subgroups(least.subgroups)}, ${pieces(least.pieces)} und ${lots(least.lots)}`;
const shortly = (amount: Amount) =>
  [...(amount.lots === null ? [] : [lots(amount.lots)]), pieces(amount.pieces)].join(", ");
const tested = (A2: string, p: string) => `Anderson-Darling A² ${A2}, ${p}`;
const day = (text: string) => calendarDayWords(text, times);

export const claims = {
  models: {
    normal: "eine Normalverteilung",
    lognormal: "eine logarithmische Normalverteilung",
    weibull: "eine Weibull-Verteilung",
    rayleigh: "eine Rayleigh-Verteilung",
    "folded-normal": "eine Betragsverteilung (1. Art)",
    "box-cox": "eine Normalverteilung nach Box und Cox",
  },
  gates: {
    stable: "stabil",
    enough: "Umfang",
    normal: "normalverteilt",
    distribution: "Verteilung",
    gauge: "Messmittel",
    independent: "unabhängig",
    resolution: "Auflösung",
  },
  outcomes: { passed: "erfüllt", failed: "nicht erfüllt", unknown: "nicht bekannt" },
  stable: {
    unknown: {
      reason: "Noch ohne Regelkarte: Ob der Prozess stabil ist, ist nicht bekannt.",
      short: "Stabilität nicht bekannt",
    },
    passed: { reason: "Kein ungeklärtes Signal auf der Regelkarte.", short: "stabil" },
    failed: (signals: number) => ({
      reason: `${counted(signals, "ungeklärtes Signal", "ungeklärte Signale")} auf der Regelkarte: Das war nicht ein einziger Prozess. Klären Sie die Signale, und untersuchen Sie dann, was bleibt.`,
      short: counted(signals, "ungeklärtes Signal", "ungeklärte Signale"),
    }),
  },
  enough: {
    failed: (amount: Amount, least: Least) => ({
      reason: `Nur ${missing(amount, least)}: zu wenig, um gesehen zu haben, was dem Prozess in einem Jahr begegnet. Warten Sie auf ${wanted(least)}.`,
      short: `nur ${missing(amount, least)}`,
    }),
    unknown: (amount: Amount, least: Least) => ({
      reason: `${have(amount)}, aber kein Los ist angegeben: Ob sie aus mindestens ${counted(least.lots, "Los", "Losen")} kommen, ist nicht bekannt.`,
      short: `${shortly(amount)}, Lose nicht angegeben`,
    }),
    passed: (amount: Amount, least: Least) => ({
      reason: `${have(amount)} aus ${counted(amount.lots ?? 0, "Los", "Losen")}; gefordert sind ${wanted(least)}.`,
      short: shortly(amount),
    }),
  },
  normal: {
    alike: {
      reason: "Alle Messwerte sind gleich: Eine Verteilung ist nicht zu sehen.",
      short: "Verteilung nicht bekannt",
    },
    few: {
      reason: "Zu wenige Messwerte, um zu sagen, ob sie normalverteilt sind.",
      short: "Verteilung nicht bekannt",
    },
    passed: (A2: string, p: string, count: number) => ({
      reason: `${tested(A2, p)}, ${readings(count)}: Nichts spricht gegen einen normalverteilten Prozess.`,
      short: "normalverteilt",
    }),
    grid: (A2: string, p: string, count: number, steps: string, spread: string) => ({
      reason: `${tested(A2, p)}, ${readings(count)}, aber die Messwerte haben Schritte von ${steps} Sigma, und über ihre Schritte verteilt passen sie (${spread}): Es ist das Raster, nicht der Prozess.`,
      short: "bis auf die Auflösung normalverteilt",
    }),
    failed: (A2: string, p: string, count: number) => ({
      reason: `${tested(A2, p)}, ${readings(count)}: nicht normalverteilt. Suchen Sie nach gemischten Quellen oder einer natürlichen Grenze, bevor Sie ein anderes Modell wählen.`,
      short: `nicht normalverteilt (${p})`,
    }),
  },
  distribution: {
    passed: (A2: string, p: string, count: number, model: string) => ({
      reason: `Anderson-Darling A² ${A2} gegen ${model}, ${p}, ${readings(count)}: Nichts spricht dagegen.`,
      short: `${model} passt`,
    }),
    grid: (A2: string, p: string, count: number, model: string, spread: string) => ({
      reason: `Anderson-Darling A² ${A2} gegen ${model}, ${p}, ${readings(count)}, aber über die Schritte des Messmittels verteilt passen die Messwerte (${spread}): Es ist das Raster, nicht der Prozess.`,
      short: `${model} passt bis auf die Auflösung`,
    }),
    failed: (A2: string, p: string, count: number, model: string) => ({
      reason: `Anderson-Darling A² ${A2} gegen ${model}, ${p}, ${readings(count)}: Sie steht nicht für diese Messwerte, und was sie darüber hinaus sagt, ist geraten. Suchen Sie nach gemischten Quellen, dann nach einem anderen Modell.`,
      short: `${model} passt nicht (${p})`,
    }),
  },
  gauge: {
    unknown: {
      reason:
        "Keine Messmitteluntersuchung: Wie viel der Streuung vom Messmittel selbst kommt, ist nicht bekannt.",
      short: "Messmittel nicht untersucht",
    },
    good: (share: string) => ({
      reason: `Das Messmittel nimmt ${share} der Toleranz ein: gut.`,
      short: `Messmittel nimmt ${share} der Toleranz ein`,
    }),
    usable: (share: string, good: string) => ({
      reason: `Das Messmittel nimmt ${share} der Toleranz ein, mehr als ${good}: brauchbar, und ein Teil der gezeigten Streuung ist seine eigene.`,
      short: `Messmittel nimmt ${share} der Toleranz ein`,
    }),
    failed: (share: string, most: string) => ({
      reason: `Das Messmittel nimmt ${share} der Toleranz ein, mehr als ${most}: Der Index sagt über das Messmittel so viel wie über den Prozess.`,
      short: `Messmittel nimmt ${share} der Toleranz ein`,
    }),
  },
  basis: {
    error: (code: string) =>
      `Nach der maximal zulässigen Messabweichung von ${code}; eine gekreuzte Untersuchung dazu ist nicht in Kraft.`,
    ofThis: (study: number, code: string, made: string) =>
      `Aus der gekreuzten Untersuchung ${study} von ${code} vom ${day(made)} an diesem Merkmal.`,
    ofAnother: (study: number, code: string, made: string, feature: string, part: string) =>
      `Aus der gekreuzten Untersuchung ${study} von ${code} vom ${day(made)} an ${feature} von ${part}; an diesem Merkmal wurde keine gemacht.`,
    ofNone: (study: number, code: string, made: string) =>
      `Aus der gekreuzten Untersuchung ${study} von ${code} vom ${day(made)} an keinem Merkmal des Prüfplans.`,
    typed: "Wie oben eingegeben.",
  },
  independent: {
    unknown: {
      reason: "Zu wenige Punkte, oder keine Streuung: Ob Nachbarn einander ähneln, ist nicht bekannt.",
      short: "Unabhängigkeit nicht bekannt",
    },
    passed: (r: string, count: number, p: string) => ({
      reason: `Autokorrelation erster Ordnung ${r} über ${points(count)}, ${p}: Nachbarn sagen nichts von Gewicht übereinander.`,
      short: "unabhängig",
    }),
    alike: (r: string, count: number, p: string) => ({
      reason: `Autokorrelation erster Ordnung ${r} über ${points(count)}, ${p}: Nachbarn ähneln einander, also sagen diese Teile weniger als ihre Zahl, und Regeln sprechen zu oft an.`,
      short: `Autokorrelation ${r}`,
    }),
    swinging: (r: string, count: number, p: string) => ({
      reason: `Autokorrelation erster Ordnung ${r} über ${points(count)}, ${p}: Nachbarn schwingen gegeneinander, wie nach zu viel Nachstellen.`,
      short: `Autokorrelation ${r}`,
    }),
  },
  resolution: {
    unknown: {
      reason: "Der Schritt zwischen möglichen Messwerten ist nicht angegeben und an ihnen nicht zu sehen.",
      short: "Auflösung nicht bekannt",
    },
    none: (step: string) => ({
      reason: `Keine Streuung bei dieser Auflösung: Das Messmittel hat Schritte von ${step}. Messen Sie mit einem feineren.`,
      short: "keine Streuung bei dieser Auflösung",
    }),
    failed: (step: string, sigmas: string, share: string | null, mostSigmas: string, mostShare: string) => ({
      reason: `Die Messwerte haben Schritte von ${step}, ${sigmas} Sigma${share === null ? "" : ` und ${share} der Toleranz`}: zu grob; gefordert sind höchstens ${mostSigmas} Sigma und ${mostShare} der Toleranz.`,
      short: `Auflösung ${sigmas} Sigma`,
    }),
    passed: (step: string, sigmas: string, share: string | null) => ({
      reason: `Die Messwerte haben Schritte von ${step}, ${sigmas} Sigma${share === null ? "" : ` und ${share} der Toleranz`}: fein genug.`,
      short: "Auflösung fein genug",
    }),
  },
  claim: {
    index: (name: string, index: string) => `${name} ${index}`,
    atLeast: (bound: string, confidence: number) =>
      `, mindestens ${bound} bei ${percent(confidence)} Vertrauensniveau`,
    byModel: (index: string, model: string) => `${index} über ${model}`,
    notCapability: (why: string, performance: string) =>
      `Nicht als Fähigkeit darstellbar: ${why}. Prozessleistung ${performance}.`,
    noSubgroups: "zu wenige vollständige Stichproben für ein Sigma in ihnen",
    noVariationWithin: "keine Streuung in den Stichproben bei dieser Auflösung",
    noTolerance: "Kein Index: Das Merkmal hat keine Toleranzgrenze, gegen die zu urteilen wäre.",
    notPositive: (least: string) =>
      `Kein Index mit diesem Modell: Es beginnt bei null, und ein Messwert ist ${least}. Wählen Sie ein anderes Modell.`,
    noVariation:
      "Kein Index: keine Streuung bei dieser Auflösung, alle Messwerte sind gleich. Messen Sie mit einem feineren Schritt.",
    fewReadings: (got: number, needed: number) =>
      `Noch kein Index: ${got} von mindestens ${needed} Messwerten.`,
    notYet: "Noch kein Index.",
  },
  presentable: {
    capability: "Als Fähigkeit darstellbar",
    performance: "Nur Prozessleistung",
    none: "Kein Index",
  },
  mayBeCalled: {
    capability: "Fähigkeit",
    performance: "Prozessleistung",
    not: "nicht darstellbar",
    none: "kein Index",
  },
  test: {
    few: "Zu wenige Messwerte für einen Test auf Normalverteilung.",
    normalProcess: "einen normalverteilten Prozess",
    fits: (A2: string, p: string, model: string) => `${tested(A2, p)}: Nichts spricht gegen ${model}.`,
    grid: (A2: string, p: string, spread: string) =>
      `${tested(A2, p)}; über die Schritte des Messmittels verteilt ${spread}: Man sieht die Schritte, nicht den Prozess.`,
    unlikely: (A2: string, p: string, model: string) => `${tested(A2, p)}: Das spricht gegen ${model}.`,
  },
  estimators: {
    "mean-range": "mittlere Spannweite durch d₂",
    "weighted-range": "Spannweiten, gewichtet nach ihrer Aussage (ungleiche Stichproben)",
    "mean-sd": "mittlere Standardabweichung durch c₄",
    "pooled-sd": "zusammengefasste Standardabweichung (ungleiche Stichproben)",
    "mean-moving-range": "mittlere gleitende Spannweite von Nachbarn durch d₂",
    "median-moving-range": "Median der gleitenden Spannweiten von Nachbarn",
  },
  cautions: {
    acceptance:
      "Fähigkeit ist keine Annahme von Teilen und kein Nachweis von Sicherheit oder Lufttüchtigkeit. Teile werden nach der Zeichnung, den Anforderungen des Kunden und dem Verfahren des Betriebs für fehlerhafte Teile durch dessen befugte Personen angenommen.",
    window:
      "Ein Index spricht von den Messwerten seines Zeitraums. Für die nächsten gilt er, solange der Prozess bleibt, wie er war: Darüber wacht die Regelkarte.",
    bound: (confidence: string) =>
      `Die untere Vertrauensgrenze deckt bei ${confidence} Vertrauensniveau den Zufall ab, welche Teile gemessen wurden. Sie deckt kein falsches Messmittel ab, keinen falschen Bezug und keine Messwerte, die nie genommen wurden.`,
    spread:
      "Die gezeigte Streuung ist die von Prozess und Messmittel zusammen; ein besseres Messmittel würde dieselben Teile mit höheren Indizes zeigen.",
    tails:
      "Anteile nach einer angepassten Kurve, die weit unter dem Zählbaren liegen, sind eine Rechnung mit einer angenommenen Form und nichts, was jemand gesehen hat.",
  },
} satisfies typeof english;
