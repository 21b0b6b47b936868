import { counted } from "../../format/numbers";
import type { standing as english } from "../en/standing";

const samples = (count: number) => counted(count, "Stichprobe", "Stichproben");

export const standing = {
  outside: "Die letzten Mittelwerte liegen außerhalb der Toleranz: Stabil ist nicht dasselbe wie maßhaltig.",
  nothing: "Noch keine Messung.",
  incomplete: (readings: number) =>
    `Noch ist keine Stichprobe vollständig: bisher ${counted(readings, "Messung", "Messungen")}.`,
  notJudged: "Noch nicht beurteilt: Es gibt keine Grenzen, nach denen zu urteilen wäre.",
  signals: (since: string, what: string) => `Signale seit ${since}: ${what}.`,
  steady: (count: number) => `Stabil: kein Signal in ${samples(count)}.`,
  back: (quiet: number, since: string, phrase: string) =>
    `Wieder normal: ${samples(quiet)} ohne Signal seit ${since} (${phrase}).`,
  limits: {
    noVariation: (first: number) =>
      `Keine Grenzen, also wird nichts beurteilt: Die ersten ${first} Stichproben zeigen bei dieser Auflösung keine Streuung. Grenzen lassen sich aus einem Vorlauf festlegen, der welche zeigt.`,
    none: (count: number) =>
      `Noch keine Grenzen: ${count} von mindestens 2 Stichproben. Sie erscheinen mit den nächsten; zu reparieren ist nichts.`,
    trialFew: (used: number, needed: number) =>
      `Vorläufige Grenzen aus ${used === 1 ? "der ersten Stichprobe" : `den ersten ${used} Stichproben`}; für endgültige braucht es ${needed}.`,
    trial: (used: number) =>
      `Vorläufige Grenzen aus den ersten ${used} Stichproben; noch hat sie niemand festgelegt.`,
    version: (version: number) => `Grenzen, Fassung ${version}.`,
    frozen: (version: number, day: string, by: string | null) =>
      `Grenzen, Fassung ${version}, festgelegt am ${day}${by ? ` von ${by}` : ""}.`,
  },
} satisfies typeof english;
