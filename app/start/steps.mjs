// @ts-check

/**
 * Does one step and prints a line with its name and the seconds it took.
 *
 * @template T
 * @param {string} name
 * @param {() => T | Promise<T>} work
 * @returns {Promise<T>}
 */
export async function step(name, work) {
  const begun = performance.now();
  const seconds = () => `${((performance.now() - begun) / 1000).toFixed(1)} s`.padStart(8);
  process.stdout.write(`  ${name.padEnd(46)}`);
  try {
    const result = await work();
    process.stdout.write(`${seconds()}\n`);
    return result;
  } catch (error) {
    process.stdout.write(`${seconds()}  failed\n`);
    throw error;
  }
}
