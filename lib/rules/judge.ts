import { InvalidInput } from "../checks";
import type { Direction, RulePattern } from "./pattern";
import type { RunRule } from "./rule";

/**
 * Run rules over points that arrive one after the other.
 *
 * All a rule has to remember fits in two integers. A zone rule keeps the last points as bits, newest
 * lowest, once for each side: with "2 of 3 beyond 2 sigma" and z = 2.4, 0.3, 2.1 the bits above are 101,
 * two of them are set and the newest is one, so it fires, with the first and third point as members. A
 * trend keeps how many points the present rise and the present fall have; an alternation how many points
 * it has and which way the last step went. The only thing shared is where the last thirty points stood,
 * from which the members of a firing are read.
 *
 * So a stored series and one new point go through the same code, and the state between them is a few
 * hundred bytes of plain data.
 */

/** One completed pattern. `members` are positions as given to `judgePoint`, oldest first, `at` the last. */
export type Firing = { rule: string; at: number; members: number[]; direction: Direction };

/** Plain data of bounded size, for storing between two points. It belongs to one list of rules. */
export type JudgingState = {
  /** Points of the phase so far that were present. */
  seen: number;
  /** The last of them; null at the start of a phase. */
  lastZ: number | null;
  /** Positions of the latest points, as a ring: the i-th point of the phase is at i modulo its length. */
  places: number[];
  /** Two integers per rule, in the order of the rules. */
  memory: [number, number][];
};

/** Differences smaller than this many sigma are ties: equal means may differ in their last bits. */
export const TIE = 1e-9;

export function startJudging(rules: readonly RunRule[]): JudgingState {
  const longest = rules.reduce((most, rule) => Math.max(most, rule.pattern.of), 1);
  return {
    seen: 0,
    lastZ: null,
    places: new Array<number>(longest).fill(-1),
    memory: rules.map((): [number, number] => [0, 0]),
  };
}

/**
 * Forgets all earlier points; changes `state`. To be called where limits change, also when the first
 * point under the new ones is missing or excluded.
 */
export function startPhase(state: JudgingState): void {
  state.seen = 0;
  state.lastZ = null;
  state.places.fill(-1);
  for (const memory of state.memory) memory.fill(0);
}

/**
 * Judges the next point; changes `state`. Returns one firing per rule whose pattern it completes, in the
 * order of the rules. A pattern that goes on fires at every further point.
 *
 * @param rules the same as `startJudging` was given
 * @param z the point in units of its own sigma; null when missing or excluded, which changes nothing
 * @param at where it stands, as firings shall name it
 * @throws InvalidInput when z is not a finite number, or the state belongs to other rules
 */
export function judgePoint(
  rules: readonly RunRule[],
  state: JudgingState,
  z: number | null,
  at: number,
): readonly Firing[] {
  if (z === null) return NOTHING;
  if (!Number.isFinite(z)) throw new InvalidInput("judgePoint", "z", z, "a finite number or null");
  if (state.memory.length !== rules.length) {
    throw new InvalidInput(
      "judgePoint",
      "state.memory.length",
      state.memory.length,
      `${rules.length} as the rules`,
    );
  }

  state.places[state.seen % state.places.length] = at;
  state.seen += 1;
  const step = state.lastZ === null ? 0 : sign(z - state.lastZ);
  state.lastZ = z;

  let firings: Firing[] | undefined;
  for (let i = 0; i < rules.length; i++) {
    const rule = rules[i]!;
    const direction = take(rule.pattern, state.memory[i]!, z, step);
    if (direction === null) continue;
    firings ??= [];
    firings.push({ rule: rule.slug, at, members: membersOf(rule.pattern, state, i, direction), direction });
  }
  return firings ?? NOTHING;
}

const NOTHING: readonly Firing[] = Object.freeze([]);

/** −1, 0 or 1; 0 also for a difference too small to count. */
function sign(difference: number): number {
  return difference > TIE ? 1 : difference < -TIE ? -1 : 0;
}

/** Takes the point into the rule's memory; tells in which direction it completed the pattern, if it did. */
function take(pattern: RulePattern, memory: [number, number], z: number, step: number): Direction | null {
  switch (pattern.kind) {
    case "zone":
      return takeZone(pattern, memory, z);
    case "trend":
      // A turning point is the last of one run and the first of the next: every run counts from one.
      memory[0] = step > 0 ? memory[0] + 1 : 1;
      memory[1] = step < 0 ? memory[1] + 1 : 1;
      if (memory[0] >= pattern.of) return "up";
      return memory[1] >= pattern.of ? "down" : null;
    case "alternation":
      memory[0] = step === 0 ? 1 : step === -memory[1] ? memory[0] + 1 : 2;
      memory[1] = step;
      return memory[0] >= pattern.of ? "either" : null;
  }
}

function takeZone(
  { where, distance, count, of }: RulePattern & { kind: "zone" },
  memory: [number, number],
  z: number,
): Direction | null {
  const window = (1 << of) - 1;
  if (where === "beyond one side") {
    const above = z > distance + TIE ? 1 : 0;
    const below = z < -distance - TIE ? 1 : 0;
    memory[0] = ((memory[0] << 1) | above) & window;
    memory[1] = ((memory[1] << 1) | below) & window;
    if (above === 1 && bits(memory[0]) >= count) return "up";
    return below === 1 && bits(memory[1]) >= count ? "down" : null;
  }
  const far = Math.abs(z);
  const inside = where === "within" ? far < distance - TIE : far > distance + TIE;
  memory[0] = ((memory[0] << 1) | (inside ? 1 : 0)) & window;
  return inside && bits(memory[0]) >= count ? "either" : null;
}

/** How many bits of a 30-bit integer are set: sums over pairs, nibbles and bytes. */
function bits(word: number): number {
  const pairs = word - ((word >>> 1) & 0x55555555);
  const nibbles = (pairs & 0x33333333) + ((pairs >>> 2) & 0x33333333);
  return Math.imul((nibbles + (nibbles >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}

function membersOf(pattern: RulePattern, state: JudgingState, rule: number, direction: Direction): number[] {
  const members: number[] = [];
  const counted = pattern.kind === "zone" ? state.memory[rule]![direction === "down" ? 1 : 0] : -1;
  for (let back = pattern.of - 1; back >= 0; back--) {
    if ((counted >>> back) & 1) members.push(state.places[(state.seen - 1 - back) % state.places.length]!);
  }
  return members;
}

/**
 * All firings of the rules over a series, by position and then in the order of the rules.
 *
 * @param z the points in units of their own sigma; null where missing or excluded
 * @param phaseStarts positions at which new limits begin; the rules forget what came before, even where
 *   that point is missing. In any order; one at or past the end has no effect.
 * @throws InvalidInput when a point is not a finite number, or a phase start not a whole number
 */
export function evaluateRules(
  rules: readonly RunRule[],
  z: ArrayLike<number | null>,
  phaseStarts: readonly number[] = [],
): Firing[] {
  const starts = new Set(phaseStarts);
  for (const start of starts) {
    if (!Number.isInteger(start) || start < 0) {
      throw new InvalidInput("evaluateRules", "phaseStarts", start, "positions from 0");
    }
  }
  const state = startJudging(rules);
  const firings: Firing[] = [];
  for (let at = 0; at < z.length; at++) {
    if (starts.has(at)) startPhase(state);
    for (const firing of judgePoint(rules, state, z[at]!, at)) firings.push(firing);
  }
  return firings;
}
