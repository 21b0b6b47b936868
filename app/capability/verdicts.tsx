import { use } from "react";
import { type Presentable, presentable } from "../../lib/capability/gate-outcome";
import { boundDecimals, indexDecimals, type Reach, reachOf } from "../../lib/capability/reach";
import { fixed, fixedAtLeast } from "../../lib/format/numbers";
import { type AskedOf, askedWords, indexAsked } from "../../lib/plan/index-asked";
import type { Words } from "../../lib/words/words";
import { StateShape, type Tone } from "../fittings/state-word";
import { words } from "../language/language";
import styles from "./capability.module.css";

type Study = Parameters<typeof reachOf>[0];

export const PRESENTABLE_TONES = {
  capability: "done",
  performance: "act",
  none: "none",
} as const satisfies Record<Presentable, Tone>;

const REACH_TONES = { shown: "done", "not-yet": "watch", missed: "act" } as const satisfies Record<
  Reach["verdict"],
  Tone
>;

/** Two facts of which neither follows from the other: whether an index may be presented, and whether it is what is asked for. */
export function Verdicts({ study, feature }: { study: Study; feature: AskedOf }) {
  const { claims } = use(words());
  const kind = presentable(study);
  return (
    <ul className={styles.verdicts}>
      <li>
        <StateShape tone={PRESENTABLE_TONES[kind]} />
        {claims.presentable[kind]}
      </li>
      <ReachItem study={study} feature={feature} />
    </ul>
  );
}

/** The second of them by itself. */
export function ReachVerdict(facts: { study: Study; feature: AskedOf }) {
  return (
    <ul className={styles.verdicts}>
      <ReachItem {...facts} />
    </ul>
  );
}

function ReachItem({ study, feature }: { study: Study; feature: AskedOf }) {
  const { reach: said } = use(words()).capability;
  const reach = reachOf(study, indexAsked(feature));
  if (reach === null) return null;
  return (
    <li>
      <StateShape tone={REACH_TONES[reach.verdict]} />
      {reachWords(reach, said)}
    </li>
  );
}

function reachWords(
  { name, index, bound, asked, verdict }: Reach,
  said: Words["capability"]["reach"],
): string {
  return said[verdict](
    said.of(
      name,
      fixed(index, indexDecimals({ index, asked })),
      bound === null ? null : fixedAtLeast(bound, boundDecimals({ bound, asked })),
    ),
    askedWords(asked),
  );
}
