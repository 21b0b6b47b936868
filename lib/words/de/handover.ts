import { counted, whole } from "../../format/numbers";
import type { handover as english } from "../en/handover";
import { openAndShelved } from "./alarms";

export const handover = {
  tab: "Übergabe",
  title: (shift: string) => `Übergabe, Schicht ${shift}`,
  fromTo: (from: string, to: string) => `${from} bis ${to}`,
  signedBy: (name: string) => `Unterschrieben von ${name}, {when}`,
  notSigned: "Noch nicht unterschrieben: geschrieben aus dem, was jetzt bekannt ist",
  coversFrom: "Umfasst die Zeit ab {when}, als die vorige unterschrieben wurde",
  shifts: "Schichten",
  remarks: "Bemerkungen",
  sign: "Unterschreiben",
  signPurpose: "Von da an bleibt sie, wie sie ist; was später geschieht, steht in der nächsten.",
  whoSigns: "Bemerkungen und Unterschrift kommen von der Schichtleitung oder der Technik.",
  signed: "Unterschriebene Übergaben",
  noneYet: "Noch keine",
  kept: "Unterschriebene Übergaben bleiben hier, wie sie unterschrieben wurden.",
  shift: (shift: string, day: string) => `Schicht ${shift}, ${day}`,
  kinds: ({ open, shelved, holds }: Record<"open" | "shelved" | "holds", number>) =>
    `${openAndShelved(open, shelved)}, ${counted(holds, "Sperrung", "Sperrungen")}`,
  noShifts: "Das Werk hat noch keine Schichten",
  enterShifts:
    "Die Verwaltung gibt sie in den Einstellungen des Werks ein; dann schreibt sich die Übergabe jeder Schicht hier von selbst.",
  print: "Auf eine Seite drucken",
  sum: (counts: Record<"measurements" | "raised" | "closed" | "open" | "shelved", number>) =>
    `${whole(counts.measurements)} Messungen; ${counted(counts.raised, "Alarm", "Alarme")} ausgelöst, ${counts.closed} geschlossen; jetzt ${openAndShelved(counts.open, counts.shelved)}.`,
  parts: {
    watch: "Worauf zu achten ist",
    open: "Offene und zurückgestellte Alarme",
    holds: "Gesperrte Teile",
    done: "Was getan wurde",
  },
  none: { watch: "Auf nichts Besonderes.", open: "Keine.", done: "Niemand hat etwas aufgeschrieben." },
  since: "seit {when}",
  held: (pieces: number, serials: string, by: string) =>
    `: ${counted(pieces, "Teil", "Teile")} (${serials}), gesperrt von ${by} seit {when}`,
  andMore: (count: number) => `und ${count} weitere`,
  moreRows: (count: number) => `Und ${count} weitere; siehe {alarms}.`,
  form: {
    remarks: "Bemerkungen für die nächste Schicht",
    hint: "Was die Seite nicht wissen kann: Menschen, Material, Maschinen, Zusagen.",
    signing: "Wird unterschrieben …",
    sign: "Unterschreiben",
    signAs: "Als {name} unterschreiben",
  },
  answers: {
    longRemarks: (most: number) =>
      `Nichts gespeichert: Bemerkungen haben höchstens ${most} Zeichen. Kürzen Sie sie.`,
    shiftsChanged:
      "Nichts gespeichert: Die Schichten in den Einstellungen haben sich geändert. Laden Sie die Seite neu.",
    signed: "Gespeichert. Die Übergabe ist unterschrieben und bleibt, wie sie ist.",
  },
  gone: "ein Merkmal, das es nicht mehr gibt",
  notStated: "nicht angegeben",
  watch: {
    unseen: (count: number) => `${count} Alarme, die seit mehr als einem Tag niemand quittiert hat.`,
    shelf: (feature: string, moment: string) => `${feature}: kommt am ${moment} von selbst zurück.`,
    unseenFor: (feature: string, time: string) => `${feature}: ${time} lang hat niemand quittiert.`,
    stillOut: (feature: string) => `${feature}: noch außerhalb; nachsehen, ob die Maßnahme wirkt.`,
    stillOutUndone: (feature: string) =>
      `${feature}: noch außerhalb; eine Maßnahme ist noch nicht aufgeschrieben.`,
    good: (feature: string, good: number, wanted: number) =>
      `${feature}: wieder normal, bisher ${good} von ${counted(wanted, "guter Stichprobe", "guten Stichproben")}.`,
    different: (source: string, features: number) =>
      `${source} weicht ab, an ${counted(features, "Merkmal", "Merkmalen")}: siehe Drift.`,
    moved: (source: string, lot: string, features: number) =>
      `${source} hat sich seit Los ${lot} verschoben, an ${counted(features, "Merkmal", "Merkmalen")}: siehe Drift.`,
  },
} satisfies typeof english;
