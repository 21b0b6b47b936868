/**
 * Expected number of steps until a Markov chain leaves its states, from each of them.
 *
 *   m = 1 + Q m   with Q the chances of moving between states, and 1 − Σ Q of leaving
 *
 * States are taken out one after the other; the moves through the one taken out are added to the moves
 * between the others. The chance of leaving is an argument and the diagonal of I − Q is summed from it and
 * the other moves, so nothing is ever subtracted: every result keeps its relative accuracy, also when a
 * chart runs for 10¹² points.
 *
 * Both arguments are used up. n³/3 multiplications and additions.
 *
 * Source: W. K. Grassmann, M. I. Taksar and D. P. Heyman, Operations Research 33 (1985) 1107-1116, for the
 * elimination (from memory).
 *
 * @param moves Q, row by row of the state that is left; none below 0
 * @param leaving the chance to leave from each state
 */
export function absorptionTimes(moves: readonly Float64Array[], leaving: Float64Array): Float64Array {
  const states = moves.length;
  const times = new Float64Array(states).fill(1);
  const departures = new Float64Array(states);
  for (let k = states - 1; k >= 0; k--) {
    const out = moves[k]!;
    let departure = leaving[k]!;
    for (let j = 0; j < k; j++) departure += out[j]!;
    departures[k] = departure;
    for (let i = 0; i < k; i++) {
      const row = moves[i]!;
      const through = row[k]! / departure;
      if (through === 0) continue;
      for (let j = 0; j < k; j++) row[j]! += through * out[j]!;
      leaving[i]! += through * leaving[k]!;
      times[i]! += through * times[k]!;
    }
  }
  for (let k = 0; k < states; k++) {
    const out = moves[k]!;
    let time = times[k]!;
    for (let j = 0; j < k; j++) time += out[j]! * times[j]!;
    times[k] = time / departures[k]!;
  }
  return times;
}
