import fc from "fast-check";

/*
 * Every law tries the same examples each time, so that a test that falls has fallen over a change. Other examples and
 * more of them: `npm test -- code --seed 7 --laws 20`.
 */

const times = Number(process.env.STEADYREST_LAW_TIMES ?? 1);
const seed = Number(process.env.STEADYREST_LAW_SEED ?? 1);

/** How many examples a law tries that names its own number, 100 being too few or too slow. */
export const runs = (usual: number): number => usual * times;

fc.configureGlobal({ seed, numRuns: runs(100) });
