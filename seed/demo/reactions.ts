/*
 * Starting texts for assigned causes: common practice of machining shops, no source. A plant adds its own.
 */

/** What a person can name as the cause of a signal or an exclusion. */
export const ASSIGNED_CAUSES: readonly string[] = [
  "Locator or clamp worn",
  "Chip or dirt in the fixture",
  "Fixture set up wrongly",
  "Tool edge worn",
  "Tool edge chipped",
  "Tool set wrongly at its change",
  "Gauge off or set wrongly",
  "Gauge set-up moved",
  "Measured or entered wrongly",
  "Part too warm when measured",
  "Casting lot out of the ordinary",
  "Machine: spindle, axis or coolant",
  "Intended change of the process",
  "No cause found",
];
