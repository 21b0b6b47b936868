import { type ChangeKind, type ScannedSource, sourceKey } from "../../lib/drift/measured-part";
import type { Scenario } from "./scenario";

/** What a scan says, as far as it is scored. Alternatives are in the order given; the first two count. */
export type SaidFlag = {
  source: ScannedSource;
  kind: ChangeKind;
  onset: string;
  onsetFrom: string;
  onsetTo: string;
  alternatives: ScannedSource[];
};

export type Verdict = {
  scenario: Pick<Scenario, "seed" | "layout" | "faults" | "severity">;
  /** By planted fault. */
  detected: boolean[];
  /** Whether the first flag names a planted source (or one that ran on the same pieces); null without flags. */
  firstRight: boolean | null;
  /** Flags that name nothing planted. A lot that was not planted is information, counted apart. */
  falseFlags: SaidFlag[];
  falseLots: number;
  kindRight: boolean | null;
  /** Lots between the onset said and the true one, and whether the interval holds it. */
  onsetError: number | null;
  onsetHeld: boolean | null;
};

/** Compares flags, most certain first, with what was planted. */
export function judgeFlags(scenario: Scenario, flags: readonly SaidFlag[]): Verdict {
  const { planted, lots } = scenario;
  const names = (flag: SaidFlag, of: (typeof planted)[number]) => {
    const true_ = [of.source, ...of.aliases].map(sourceKey);
    return (
      true_.includes(sourceKey(flag.source)) ||
      flag.alternatives.slice(0, 2).some((one) => sourceKey(one) === sourceKey(of.source))
    );
  };
  const isRight = (flag: SaidFlag) => planted.some((of) => names(flag, of));
  const alarms = flags.filter((flag) => flag.source.kind !== "lot" || isRight(flag));
  const exact = alarms
    .map((flag) => ({ flag, of: planted.find((of) => sourceKey(of.source) === sourceKey(flag.source)) }))
    .find(({ of }) => of !== undefined);
  const place = (code: string) => lots.indexOf(code);
  return {
    scenario,
    detected: planted.map((of) => alarms.some((flag) => names(flag, of))),
    firstRight: alarms[0] === undefined ? null : isRight(alarms[0]),
    falseFlags: alarms.filter((flag) => !isRight(flag)),
    falseLots: flags.length - alarms.length,
    kindRight: exact === undefined ? null : exact.flag.kind === exact.of!.kind,
    onsetError: exact === undefined ? null : place(exact.flag.onset) - exact.of!.onsetLot,
    onsetHeld:
      exact === undefined
        ? null
        : place(exact.flag.onsetFrom) <= exact.of!.onsetLot &&
          exact.of!.onsetLot <= place(exact.flag.onsetTo),
  };
}
