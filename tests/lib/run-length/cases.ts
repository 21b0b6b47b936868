import reference from "../../reference/arl.json";

/** A case of tests/reference/arl.json, as far as these tests read it. */
export type Case = {
  id: string;
  kind: string;
  input: {
    shifts: number[];
    rules?: string[];
    smoothing?: number;
    limitWidthInSigma?: number;
    limits?: string;
    reference?: number;
    decisionInterval?: number;
    individualsLimitInSigma?: number;
    movingRangeLimitInSigma?: number;
  };
  expected: Record<string, (number | null)[]>;
  tolerance: { relative?: number; standardErrors?: number };
  published?: { shift: number; value: number; agrees: boolean; source: string }[];
};

const CASES = reference.cases as unknown as Case[];

/** The cases whose kind is one of these. */
export function casesOf(...kinds: string[]): Case[] {
  return CASES.filter(({ kind }) => kinds.includes(kind));
}

/** What of a list of expected values is given, with the shift it belongs to. Long ones are left out there. */
export function expectedAt({ input, expected }: Case, name: string): { shift: number; value: number }[] {
  // Trends alone are the same at every shift; their case gives one value for all.
  return (expected[name] ?? []).flatMap((value, i) =>
    value === null ? [] : [{ shift: input.shifts[i] ?? 0, value }],
  );
}

/** Half a unit of the last printed decimal. */
export function halfUnit(printed: number): number {
  const decimals = String(printed).split(".")[1]?.length ?? 0;
  return 0.5 * 10 ** -decimals;
}
