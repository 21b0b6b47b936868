import { scaleLinear as d3ScaleLinear } from "d3-scale";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { scaleLinear } from "../../app/features/[id]/axis-scales";

/* recharts is written for the scales of d3-scale, so that package says what is right. */

const figure = fc.double({ min: -1e6, max: 1e6, noNaN: true });
const pair = fc.tuple(figure, figure);

describe("the scale that recharts is given for its axes", () => {
  test("by hand: 5 to 6 mm over 200 pixels upwards", () => {
    const scale = scaleLinear().domain([5, 6]).range([200, 0]);
    expect(scale(5.25)).toBe(150);
    expect(scale.invert(150)).toBe(5.25);
  });

  test("d3-scale 4.0.3: figures, places and spans that run either way", () => {
    fc.assert(
      fc.property(pair, pair, figure, (domain, range, value) => {
        // Two figures closer than a millionth of their size leave d3 no digits to compare.
        fc.pre(Math.abs(domain[0] - domain[1]) > 1 && Math.abs(range[0] - range[1]) > 1);
        const ours = scaleLinear().domain(domain).range(range);
        const theirs = d3ScaleLinear().domain(domain).range(range);
        const slack = 1e-9 * 1e6 * Math.abs((range[0] - range[1]) / (domain[0] - domain[1])) + 1e-9;
        expect(Math.abs(ours(value)! - theirs(value)!)).toBeLessThan(slack);
        expect(ours.domain()).toEqual(theirs.domain());
        expect(ours.range()).toEqual(theirs.range());
      }),
    );
  });

  test("d3-scale 4.0.3: a span without width lies in the middle", () => {
    const theirs = d3ScaleLinear().domain([3, 3]).range([0, 100]);
    const ours = scaleLinear().domain([3, 3]).range([0, 100]);
    expect(ours(3)).toBe(theirs(3));
  });

  test.each([null, undefined, Number.NaN])("d3-scale 4.0.3: %s has no place", (value) => {
    expect(d3ScaleLinear()(value as number)).toBeUndefined();
    expect(scaleLinear()(value)).toBeUndefined();
  });

  test("a copy goes its own way", () => {
    const first = scaleLinear().domain([0, 10]).range([0, 100]);
    const second = first.copy().range([0, 1]);
    expect([first(5), second(5)]).toEqual([50, 0.5]);
  });
});
