import { InvalidInput } from "../../../lib/checks";
import { cusumRunLength } from "../../../lib/run-length/cusum";
import { ewmaRunLength } from "../../../lib/run-length/ewma";
import { type RunLengthMethod, rulesRunLengths } from "../../../lib/run-length/rules-run-length";
import { printJson, printTable } from "../output";
import { WrongUsage } from "../refusal";
import { rulesForHelp, rulesNamed } from "../rules-option";
import { defineVerb } from "../verb";

type Line = { shift: number; arl: number | null; standardError: number | null; method: RunLengthMethod };

const USUAL_SHIFTS = "0,0.5,1,1.5,2,2.5,3";
const USUAL_RUNS = "20000";
const USUAL_SEED = "1";

export const verb = defineVerb({
  help: `arl --rules slug,… | --ewma λ,L | --cusum k,h   average run length, in plotted points

  --rules       run rules, separated by commas:
${rulesForHelp().replaceAll(/^/gm, "                ")}
  --ewma λ,L    exponentially weighted moving average with weight λ and limits at L sigma
  --limits      with --ewma: steady (usual; the limits of a long run from the first point on) or exact
  --cusum k,h   two-sided cumulative sums with reference k and decision interval h, in sigma
  --head-start  with --cusum: where both sums begin, in sigma; usually 0, h/2 for the fast initial response
  --shifts      how far the mean lies off the centre, in sigma of the plotted point; usually ${USUAL_SHIFTS}
  --runs        simulated runs a shift, where rules have no exact figure; usually ${USUAL_RUNS}
  --seed        of the simulation; usually ${USUAL_SEED}
  --json        {"arl":[{"shift","arl","standardError","method"}]}; standardError is null for exact figures,
                arl where ten million simulated points hardly saw a signal

Points are independent and normal, limits known, the shift is there from the first point on, and the point
that signals counts. At shift 0 it is the number of points per false alarm.
`,
  options: {
    rules: { type: "string" },
    ewma: { type: "string" },
    cusum: { type: "string" },
    limits: { type: "string" },
    "head-start": { type: "string" },
    shifts: { type: "string", default: USUAL_SHIFTS },
    runs: { type: "string", default: USUAL_RUNS },
    seed: { type: "string", default: USUAL_SEED },
    json: { type: "boolean" },
  },
  run({ values, positionals }) {
    if (positionals.length > 0) throw new WrongUsage(`arl takes no file, but got "${positionals[0]}".`);
    const { rules, ewma, cusum } = values;
    if ([rules, ewma, cusum].filter((given) => given !== undefined).length !== 1) {
      throw new WrongUsage("arl needs one of --rules, --ewma and --cusum.");
    }
    if (values.limits !== undefined && ewma === undefined) {
      throw new WrongUsage("--limits belongs to --ewma.");
    }
    if (values["head-start"] !== undefined && cusum === undefined) {
      throw new WrongUsage("--head-start belongs to --cusum.");
    }
    const shifts = numbersIn("--shifts", values.shifts);
    const lines = orWrongUsage(() => {
      if (rules !== undefined) return linesOfRules(rules, shifts, values);
      if (ewma !== undefined) return linesOfEwma(ewma, shifts, values.limits ?? "steady");
      return linesOfCusum(cusum ?? "", shifts, values["head-start"] ?? "0");
    });
    if (values.json) printJson({ arl: lines });
    else print(lines);
  },
});

function linesOfRules(list: string, shifts: number[], given: { runs: string; seed: string }): Line[] {
  const simulation = { seed: number("--seed", given.seed), runs: number("--runs", given.runs) };
  return rulesRunLengths({ rules: rulesNamed(list), shifts, simulation }).map(
    ({ shift, mean, standardError, method }) => ({ shift, arl: mean, standardError, method }),
  );
}

function linesOfEwma(design: string, shifts: number[], limits: string): Line[] {
  if (limits !== "steady" && limits !== "exact") {
    throw new WrongUsage(`--limits is steady or exact, not "${limits}".`);
  }
  const [smoothing, width] = pairIn("--ewma", design);
  return shifts.map((shift) => byEquation(shift, ewmaRunLength({ smoothing, width, limits, shift })));
}

function linesOfCusum(design: string, shifts: number[], start: string): Line[] {
  const [reference, decisionInterval] = pairIn("--cusum", design);
  const headStart = number("--head-start", start);
  return shifts.map((shift) =>
    byEquation(shift, cusumRunLength({ reference, decisionInterval, headStart, shift })),
  );
}

function byEquation(shift: number, arl: number): Line {
  return { shift, arl, standardError: null, method: "integral-equation" };
}

function pairIn(option: string, text: string): [number, number] {
  const [first, second, ...more] = numbersIn(option, text);
  if (first === undefined || second === undefined || more.length > 0) {
    throw new WrongUsage(`${option} takes two numbers with a comma between them, not "${text}".`);
  }
  return [first, second];
}

function numbersIn(option: string, text: string): number[] {
  return text.split(",").map((word) => number(option, word.trim()));
}

function number(option: string, word: string): number {
  const value = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(word) ? Number(word) : Number.NaN;
  if (Number.isFinite(value)) return value;
  throw new WrongUsage(`${option} holds "${word}", which is no number with a decimal point.`);
}

/** All the numbers come from the command itself, so one that does not fit is wrong usage. */
function orWrongUsage<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof InvalidInput) throw new WrongUsage(`${error.message}.`);
    throw error;
  }
}

function print(lines: readonly Line[]): void {
  printTable(
    ["shift", "arl", "standard error", "method"],
    lines.map(({ shift, arl, standardError, method }) => [
      String(shift),
      arl === null ? "longer than 100000" : shown(arl),
      standardError === null ? "exact" : shown(standardError),
      method,
    ]),
  );
}

/** Five digits, as tables of run lengths print them. */
function shown(value: number): string {
  return String(Number(value.toPrecision(5)));
}
