import type { FeatureKind } from "../../plan/feature-plan";

/*
 * The reaction plan of whoever has not written one: common practice of machining shops, in our own words, no
 * source. A plant replaces it by its own.
 */

const CONTAIN = "Put every piece since the last good subgroup on hold, and mark the crates.";
const MEASURE_AGAIN = "Clean the piece and the gauge, then measure the last piece again.";
const SECOND_GAUGE = "Measure the same piece on a second gauge; if the two disagree, stop using the first.";
const CALL = "If the cause is still open after 30 minutes, stop the station and call the process engineer.";
const CONFIRM = "After the action measure five pieces in a row; release only what has been measured good.";

/** Steps for the person at the line, in the order in which to take them, by kind of feature. */
export const reactions: Record<FeatureKind, readonly string[]> = {
  size: [
    MEASURE_AGAIN,
    CONTAIN,
    "Compare part temperature with 20 °C; let a warm piece cool and measure it again.",
    "Look at the edge of the tool: pieces since its change, chipping, built-up edge.",
    "Compare with the other fixtures in the same lot: only one off means the fixture, all off means tool, gauge or material.",
    SECOND_GAUGE,
    "Correct the tool offset only for a cause you have found, and log it as an event of the tool.",
    CONFIRM,
    CALL,
  ],
  position: [
    MEASURE_AGAIN,
    CONTAIN,
    "Clean locators and clamps; look for chips under the piece.",
    "Compare with the other fixtures in the same lot.",
    "Check the locator pins with the master housing or a dial gauge.",
    "Look at the casting: flash or a shifted core at the places where it is located.",
    CONFIRM,
    CALL,
  ],
  form: [
    MEASURE_AGAIN,
    CONTAIN,
    "Check the clamping pressure, and measure once clamped and once free.",
    "Look at the edge of the tool and listen for chatter.",
    "Look at the casting lot: wall thickness, hard skin.",
    CONFIRM,
    CALL,
  ],
  orientation: [
    MEASURE_AGAIN,
    CONTAIN,
    "Clean the resting faces of the fixture; look for chips and dents.",
    "Check the fixture's face against the spindle with a dial gauge.",
    "Compare with the other fixtures in the same lot.",
    CONFIRM,
    CALL,
  ],
  profile: [
    MEASURE_AGAIN,
    CONTAIN,
    "Check the alignment of the gauge on the master piece, and set it up anew if it is off.",
    "Look at the edge of the tool.",
    "Look at the casting lot.",
    CONFIRM,
    CALL,
  ],
  runout: [
    MEASURE_AGAIN,
    CONTAIN,
    "Clean the reference bore and the spindle's seat; check the runout of the tool holder.",
    "Look at the edge of the tool.",
    CONFIRM,
    CALL,
  ],
  other: [
    MEASURE_AGAIN,
    CONTAIN,
    SECOND_GAUGE,
    "Look for what changed last: tool, fixture, gauge, lot, person.",
    CONFIRM,
    CALL,
  ],
};
