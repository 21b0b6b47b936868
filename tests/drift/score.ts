import { sourceKey } from "../../lib/drift/measured-part";
import { ScanMemory } from "../../lib/drift/scan-memory";
import { type BelowBar, belowBar, LEAST_FAULT_FREE_SCANS, LEAST_RIGHT_FIRST, MOST_FALSE_FLAGS } from "./bars";
import type { Verdict } from "./judge-flags";
import { FAULTS, type Fault, LAYOUT_NAMES } from "./layouts";
import { scanAndJudge } from "./run-scan";
import { scenario } from "./scenario";

/*
 * Scores the scan on generated scenarios:
 *
 *   npm run drift:score -- [--part PART] [--seeds N] [--from SEED] [--nulls N] [--fault FAULT] [--severities 1,2]
 *                          [--looks N]
 *
 * Parts: full (null, detection and delay), null, detection, delay, pairs (two faults at once), geometry (fixtures
 * whose locating directions are known), successive (so many scans of each fault-free shop, one after every lot).
 *
 * Each fault and severity is tried on the same seeds, taken in turn through the seven layouts. What falls below the
 * bars of bars.ts is said at the end.
 */

const FIRST_SEED = 730_001;

const options = optionsOf(process.argv.slice(2));
const SEVERITIES = options.severities;
const begun = process.cpuUsage();
const missed: string[] = [];
if (options.part === "full" || options.part === "null") falseFlags();
if (options.part === "full" || options.part === "detection") detection();
if (options.part === "full" || options.part === "delay") delays();
if (options.part === "pairs") pairs();
if (options.part === "geometry") geometry();
if (options.part === "successive") successive();
if (["full", "null", "detection"].includes(options.part)) {
  console.log(missed.length === 0 ? "\nBars: all reached." : `\nBars missed:\n  ${missed.join("\n  ")}`);
}
const { user, system } = process.cpuUsage(begun);
console.log(`\n${((user + system) / 1e6).toFixed(0)} s of processor time.`);

function optionsOf(words: readonly string[]) {
  const value = (name: string) => {
    const at = words.indexOf(`--${name}`);
    return at === -1 ? undefined : words[at + 1];
  };
  return {
    seeds: Number(value("seeds") ?? 21),
    from: Number(value("from") ?? FIRST_SEED),
    nulls: Number(value("nulls") ?? 210),
    looks: Number(value("looks") ?? 60),
    part: value("part") ?? "full",
    fault: value("fault") as Fault | undefined,
    severities: (value("severities") ?? "0.5,1,1.5,2,3").split(",").map(Number),
  };
}

function seedsOf(count: number) {
  return Array.from({ length: count }, (_, i) => ({
    seed: options.from + 101 * i,
    layout: LAYOUT_NAMES[i % LAYOUT_NAMES.length]!,
  }));
}

function share(verdicts: readonly Verdict[], holds: (verdict: Verdict) => boolean): string {
  return verdicts.length === 0 ? "-" : (verdicts.filter(holds).length / verdicts.length).toFixed(2);
}

function wordsFor({ falseFlags: flags, scenario: { seed, layout } }: Verdict): string {
  return flags
    .map(({ source, kind }) => `${source.kind} ${source.id} ${kind} (seed ${seed}, ${layout})`)
    .join("; ");
}

function falseFlags(): void {
  const verdicts = seedsOf(options.nulls).map(({ seed, layout }) =>
    scanAndJudge(scenario({ seed: seed + 50_000, layout, faults: [], severity: 0 })),
  );
  const flags = verdicts.reduce((sum, verdict) => sum + verdict.falseFlags.length, 0);
  const lots = verdicts.reduce((sum, verdict) => sum + verdict.falseLots, 0);
  console.log(`Fault-free scans: ${verdicts.length}, seeds ${options.from + 50_000} and every 101st after`);
  console.log(`False flags: ${flags}, ${(flags / verdicts.length).toFixed(4)} a scan. Lots named: ${lots}.`);
  for (const verdict of verdicts) if (verdict.falseFlags.length > 0) console.log(`  ${wordsFor(verdict)}`);
  if (verdicts.length < LEAST_FAULT_FREE_SCANS) {
    missed.push(`false flags: ${verdicts.length} scans say little; ${LEAST_FAULT_FREE_SCANS} are asked for`);
  }
  if (flags > MOST_FALSE_FLAGS * verdicts.length) {
    missed.push(`false flags: ${(flags / verdicts.length).toFixed(4)} a scan, more than ${MOST_FALSE_FLAGS}`);
  }
}

function detection(): void {
  const seeds = seedsOf(options.seeds);
  console.log(`\nDetected, ${seeds.length} seeds, ${options.from} and every 101st after, full window`);
  console.log(["fault".padEnd(16), ...SEVERITIES.map((severity) => String(severity).padStart(5))].join(" "));
  const all: Verdict[] = [];
  for (const fault of FAULTS) {
    if (options.fault !== undefined && fault !== options.fault) continue;
    const cells = SEVERITIES.map((severity) => {
      const verdicts = seeds.map(({ seed, layout }) =>
        scanAndJudge(scenario({ seed, layout, faults: [fault], severity })),
      );
      all.push(...verdicts);
      const found = verdicts.filter(({ detected }) => detected[0] === true).length;
      const below = belowBar(fault, severity, found, verdicts.length);
      if (below !== null) missed.push(wordsForBar(below));
      return share(verdicts, ({ detected }) => detected[0] === true).padStart(5);
    });
    console.log([fault.padEnd(16), ...cells].join(" "));
  }
  summarise(all);
}

function wordsForBar({ fault, severity, found, of, bar }: BelowBar): string {
  return `${fault}, ${severity} sigma: ${found} of ${of} found, ${(found / of).toFixed(2)} where ${bar.toFixed(2)} is asked for`;
}

function summarise(verdicts: readonly Verdict[]): void {
  for (const [title, of] of [
    ["all", verdicts],
    ["without lot_shift", verdicts.filter(({ scenario: { faults } }) => faults[0] !== "lot_shift")],
  ] as const) {
    const cells = SEVERITIES.map((severity) =>
      share(
        of.filter((verdict) => verdict.scenario.severity === severity),
        ({ detected }) => detected[0] === true,
      ).padStart(5),
    );
    console.log([title.padEnd(16), ...cells].join(" "));
  }
  for (const layout of LAYOUT_NAMES) {
    const cells = SEVERITIES.map((severity) =>
      share(
        verdicts.filter(
          ({ scenario: { layout: own, severity: at, faults } }) =>
            own === layout && at === severity && faults[0] !== "lot_shift",
        ),
        ({ detected }) => detected[0] === true,
      ).padStart(5),
    );
    console.log([layout.padEnd(16), ...cells].join(" "));
  }
  const flagged = verdicts.filter(({ firstRight }) => firstRight !== null);
  const falseOnes = verdicts.filter(({ falseFlags: flags }) => flags.length > 0);
  const right = flagged.filter(({ firstRight }) => firstRight === true).length;
  if (right < LEAST_RIGHT_FIRST * flagged.length) {
    missed.push(
      `right source first in ${(right / flagged.length).toFixed(3)}, less than ${LEAST_RIGHT_FIRST}`,
    );
  }
  const kinds = verdicts.filter(({ kindRight }) => kindRight !== null);
  const onsets = verdicts.filter(
    ({ onsetError, scenario: { severity } }) => onsetError !== null && severity >= 1,
  );
  const errors = onsets.map(({ onsetError }) => Math.abs(onsetError!)).sort((a, b) => a - b);
  console.log(`Right source first, given a flag: ${right} of ${flagged.length}`);
  console.log(`Kind right: ${share(kinds, ({ kindRight }) => kindRight === true)} of ${kinds.length}`);
  console.log(
    `Onset error in lots (1 sigma and more): median ${errors[errors.length >> 1]}, 90 % within ${errors[Math.floor(0.9 * errors.length)]}; the interval holds the onset in ${share(onsets, ({ onsetHeld }) => onsetHeld === true)}`,
  );
  const count = verdicts.reduce((sum, { falseFlags: flags }) => sum + flags.length, 0);
  console.log(`False flags beside the true one: ${count} in ${verdicts.length} scans`);
  for (const verdict of falseOnes) {
    console.log(`  ${verdict.scenario.faults.join("+")} ${verdict.scenario.severity}: ${wordsFor(verdict)}`);
  }
}

function delays(): void {
  const seeds = seedsOf(options.seeds);
  const after = [1, 2, 3, 5, 8];
  console.log(
    `\nDetected when the window ends so many lots after the first lot touched, ${seeds.length} seeds`,
  );
  console.log(
    ["fault, severity".padEnd(22), ...after.map((lots) => String(lots).padStart(5)), " median delay"].join(
      " ",
    ),
  );
  let falseCount = 0;
  let scans = 0;
  for (const fault of [
    "fixture_step",
    "fixture_drift",
    "tool_offset",
    "gauge_step",
    "fixture_spread",
  ] as const) {
    for (const severity of [1, 2]) {
      const seen = seeds.map(({ seed, layout }) => {
        const built = scenario({ seed, layout, faults: [fault], severity, onsetShare: 0.5 });
        return after.map((lots) => {
          const verdict = scanAndJudge(
            built,
            Math.min(built.lots.length - 1, built.planted[0]!.onsetLot + lots - 1),
          );
          falseCount += verdict.falseFlags.length;
          scans++;
          return verdict.detected[0] === true;
        });
      });
      const cells = after.map((_, i) =>
        (seen.filter((row) => row[i]).length / seen.length).toFixed(2).padStart(5),
      );
      const delay = seen
        .map((row) => after[row.indexOf(true)] ?? Number.POSITIVE_INFINITY)
        .sort((a, b) => a - b);
      const middle = delay[delay.length >> 1]!;
      console.log(
        [`${fault}, ${severity}`.padEnd(22), ...cells, `  ${Number.isFinite(middle) ? middle : "> 8"}`].join(
          " ",
        ),
      );
    }
  }
  console.log(`False flags beside the true one: ${falseCount} in ${scans} scans`);
}

function pairs(): void {
  const together: [Fault, Fault][] = [
    ["fixture_step", "gauge_step"],
    ["fixture_step", "tool_offset"],
    ["fixture_drift", "operator_step"],
    ["tool_wear_rate", "gauge_step"],
    ["temperature", "fixture_step"],
  ];
  const seeds = seedsOf(options.seeds);
  console.log(`\nTwo faults at once, ${seeds.length} seeds: both found, at least one, false flags a scan`);
  for (const faults of together) {
    for (const severity of [1, 2]) {
      const verdicts = seeds.map(({ seed, layout }) =>
        scanAndJudge(scenario({ seed, layout, faults, severity })),
      );
      const count = verdicts.reduce((sum, { falseFlags: flags }) => sum + flags.length, 0);
      console.log(
        `${faults.join(" + ").padEnd(32)} ${severity}  ${share(verdicts, ({ detected }) => detected.every(Boolean))}  ${share(verdicts, ({ detected }) => detected.some(Boolean))}  ${(count / verdicts.length).toFixed(3)}`,
      );
    }
  }
}

/** Fixtures whose locating directions are known, beside the same scans without. */
function geometry(): void {
  const seeds = seedsOf(options.seeds);
  console.log(`\nDetected with known locating directions, ${seeds.length} seeds from ${options.from}`);
  for (const fault of ["fixture_step", "fixture_drift"] as const) {
    const cells = SEVERITIES.map((severity) =>
      share(
        seeds.map(({ seed, layout }) =>
          scanAndJudge(scenario({ seed, layout, faults: [fault], severity, geometry: true })),
        ),
        ({ detected }) => detected[0] === true,
      ).padStart(5),
    );
    console.log([fault.padEnd(16), ...cells].join(" "));
  }
  const quiet = seedsOf(options.nulls).map(({ seed, layout }) =>
    scanAndJudge(scenario({ seed: seed + 50_000, layout, faults: [], severity: 0, geometry: true })),
  );
  const flags = quiet.reduce((sum, verdict) => sum + verdict.falseFlags.length, 0);
  console.log(`False flags with them: ${flags} in ${quiet.length} fault-free scans`);
}

/** What a shop meets that scans at every lot end: looks at growing data are no independent looks. */
function successive(): void {
  const before = 8;
  let scans = 0;
  let flags = 0;
  let episodes = 0;
  let shops = 0;
  for (const { seed, layout } of seedsOf(options.seeds)) {
    const lots = before + options.looks;
    const built = scenario({ seed: seed + 90_000, layout, faults: [], severity: 0, lots });
    const memory = new ScanMemory();
    let standing: string[] = [];
    let own = 0;
    for (let last = before; last < lots; last++) {
      const verdict = scanAndJudge(built, last, memory);
      const named = verdict.falseFlags.map(({ source }) => sourceKey(source));
      scans++;
      flags += named.length;
      own += named.filter((key) => !standing.includes(key)).length;
      standing = named;
      if (named.length > 0) console.log(`  after lot ${last + 1}: ${wordsFor(verdict)}`);
    }
    episodes += own;
    shops += own > 0 ? 1 : 0;
  }
  console.log(
    `\n${options.seeds} fault-free shops, seeds ${options.from + 90_000} and every 101st after: ${options.looks} scans of each, one after every lot from the ${before + 1}th on`,
  );
  console.log(
    `False flags: ${flags} in ${scans} scans, ${(flags / scans).toFixed(4)} a scan; a flag was raised ${episodes} times, in ${shops} of ${options.seeds} shops`,
  );
}
