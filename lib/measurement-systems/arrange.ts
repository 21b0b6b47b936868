import { InvalidInput, requireFiniteNumbers } from "../checks";

/** One reading of a study in which each operator measures each part several times. */
export type StudyReading = { part: string; operator: string; value: number };

/** Readings by part, operator and trial: `values[part][operator][trial]`, with the names in that order. */
export type CrossedReadings = {
  parts: readonly string[];
  operators: readonly string[];
  trials: number;
  values: readonly (readonly (readonly number[])[])[];
};

/**
 * Sorts readings into the cells of a crossed study, trials in the order in which they come.
 *
 * The analysis asks that every operator measures every part equally often, at least twice: a missing reading makes
 * the components depend on which one is missing.
 *
 * @throws InvalidInput that names the cell which is empty or holds another number of readings, or says that there
 *   are fewer than two parts, operators or trials
 */
export function arrangeCrossed(readings: readonly StudyReading[]): CrossedReadings {
  const where = "arrangeCrossed";
  const parts = [...new Set(readings.map(({ part }) => part))];
  const operators = [...new Set(readings.map(({ operator }) => operator))];
  const partOf = new Map(parts.map((name, i) => [name, i]));
  const operatorOf = new Map(operators.map((name, i) => [name, i]));
  const values = parts.map(() => operators.map((): number[] => []));
  for (const { part, operator, value } of readings) {
    requireFiniteNumbers(where, { [`value of part ${part} by operator ${operator}`]: value });
    values[partOf.get(part)!]![operatorOf.get(operator)!]!.push(value);
  }
  const trials = Math.max(0, ...values.flat().map((cell) => cell.length));
  for (const [i, row] of values.entries()) {
    for (const [j, cell] of row.entries()) {
      if (cell.length === trials) continue;
      const name = `readings of part ${parts[i]} by operator ${operators[j]}`;
      throw new InvalidInput(where, name, cell.length, `${trials}, as for the other parts and operators`);
    }
  }
  return checkedCrossed(where, { parts, operators, trials, values });
}

/** Throws `InvalidInput` unless there are at least two parts, two operators and two trials in each cell. */
export function checkedCrossed(where: string, readings: CrossedReadings): CrossedReadings {
  const { parts, operators, trials } = readings;
  if (parts.length < 2) throw new InvalidInput(where, "number of parts", parts.length, "at least 2");
  if (operators.length < 2) {
    throw new InvalidInput(where, "number of operators", operators.length, "at least 2");
  }
  if (trials < 2) throw new InvalidInput(where, "number of trials", trials, "at least 2");
  return readings;
}
