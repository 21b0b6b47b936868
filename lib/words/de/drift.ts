import { counted } from "../../format/numbers";
import type { drift as english } from "../en/drift";

type Kind = "step" | "trend" | "spread";
type Bond = "cuts" | "measures" | "holds" | "touches";
type Limit = "tolerance" | "control";

const BONDS: Record<Bond, { one: string; many: string }> = {
  cuts: { one: "das es schneidet", many: "die es schneidet" },
  measures: { one: "das damit gemessen wird", many: "die damit gemessen werden" },
  holds: { one: "das damit gespannt wird", many: "die damit gespannt werden" },
  touches: { one: "das davon berührt wird", many: "die davon berührt werden" },
};

const limitWords = (limit: Limit, side: "lower" | "upper") =>
  limit === "tolerance"
    ? `seine ${side === "lower" ? "untere" : "obere"} Toleranzgrenze`
    : "das Ende seiner üblichen Streuung";

export const drift = {
  names: {
    lot: (id: string) => `Los ${id}`,
    operator: (id: string) => `Bediener ${id}`,
    setup: (id: string) => `Rüstzustand ${id}`,
    machine: (id: string) => `Maschine ${id}`,
    process: (id: string) => (id === "" ? "Der Prozess" : `Der Prozess von ${id}`),
    temperature: "Teiletemperatur",
  },
  within: (name: string) => name.replace(/^Der Prozess/, "dem Prozess"),
  sentence: {
    since: (lot: string) => (lot.startsWith("pieces ") ? lot.replace("pieces", "Teile") : `Los ${lot}`),
    between: (from: string, to: string) => `zwischen ${from} und ${to}`,
    share: (share: string) => `${share} der Toleranz`,
    middle: (features: number) => `das mittlere von ${counted(features, "Merkmal", "Merkmalen")}`,
    onAverage: (features: number) => `im Mittel über ${counted(features, "Merkmal", "Merkmale")}`,
    spread: (who: string, ratio: string, since: string) =>
      `Teile von ${who} streuen seit ${since} ${ratio}-mal so stark wie die anderen, ohne dass ihr Mittelwert sich verschoben hat: nach einer losen Spannung oder einem losen Taststift sehen`,
    temperature: (since: string, rate: string) =>
      `Die Maße folgen seit ${since} der Teiletemperatur: ${rate} µm je Meter und Kelvin; unkorrigiertes Eisen oder Stahl ergäbe 10 bis 12`,
    lot: (who: string, features: number, size: string) =>
      `${who} allein weicht an ${counted(features, "Merkmal", "Merkmalen")} ab, um ${size}: das Material ansehen, nicht die Vorrichtungen`,
    edgeSet: (who: string, edge: number | null, size: string, since: string) =>
      `${who} Schneide ${edge} wurde in ${since} um ${size} falsch eingestellt`,
    toolMoved: (who: string, size: string, since: string, edge: number | null) =>
      `${who} hat sich ${edge === null ? `seit ${since}` : `seit Schneide ${edge} (${since})`} um ${size} verschoben`,
    toolWears: (who: string, size: string) => `${who} verschleißt um ${size} über eine Standzeit`,
    toolWorn: (who: string, size: string, since: string) =>
      `${who} verschleißt seit ${since} um ${size} mehr über eine Standzeit`,
    gauge: (who: string, kind: Kind, size: string, since: string) =>
      kind === "step"
        ? `${who} zeigt seit ${since} ${size} an`
        : `${who} ist seit ${since} um ${size} gedriftet`,
    checkGauge: "das Messmittel vor der Maschine prüfen",
    moved: (who: string, kind: Kind, size: string, since: string) =>
      kind === "step"
        ? `${who} hat sich seit ${since} um ${size} verschoben`
        : `${who} driftet seit ${since}, bisher um ${size}`,
    agree: (moved: number, inScope: number, bond: Bond) => {
      if (inScope === 1) return `zu sehen an dem einen Merkmal, ${BONDS[bond].one}`;
      if (moved === inScope) return `alle ${inScope} Merkmale, ${BONDS[bond].many}, stimmen überein`;
      return `${moved} der ${inScope} Merkmale, ${BONDS[bond].many}, stimmen überein`;
    },
    notForeseeable: "wie es weitergeht, ist noch nicht abzusehen",
    isAt: (feature: string, limit: Limit, side: "lower" | "upper") =>
      `${feature} hat ${limitWords(limit, side)} schon erreicht`,
    meets: (
      feature: string,
      limit: Limit,
      side: "lower" | "upper",
      { middle, low, high }: { middle: number; low: number; high: number | null },
    ) =>
      `bleibt es dabei, erreicht ${feature} als erstes ${limitWords(limit, side)}, in etwa ${counted(middle, "Teil", "Teilen")} (${low} bis ${high ?? "viel mehr"})`,
    rival: (doubt: "open" | "probably" | "against", other: string, aliased: boolean, run: string) => {
      const same = aliased ? ", die Teile liefen gemeinsam" : "";
      const doubts = {
        open: `Die Daten können es nicht von ${other} unterscheiden`,
        probably: `Wahrscheinlich liegt es hieran und nicht an ${other}`,
        against: `Das Muster über die Merkmale spricht gegen ${other}`,
      };
      return `${doubts[doubt]}${same}: ${run}, dann neu prüfen`;
    },
    pair: (pieces: number, a: string, b: string) =>
      `${counted(pieces, "Teil", "Teile")} auf ${a} und ${b} zusammen fertigen`,
    checkPiece: (gauge: string | null, pieces: number) =>
      `ein bekanntes Prüfteil mit ${gauge ?? "einem anderen Messmittel"} messen, oder ${counted(pieces, "Teil", "Teile")} auf beiden`,
  },
} satisfies typeof english;
