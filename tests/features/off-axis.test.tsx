import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { EdgeFigures, OffAxis, offAxis } from "../../app/features/[id]/off-axis";
import { WORDS } from "../../lib/words/words";

const DOMAIN = { low: 111.9, high: 112.1 };
const points = [112, 1120.2, 112.02, 11.2, null, 112.11].map((value, i) => ({ number: i + 1, value }));

test("points beyond the ends of the axis are found, the furthest is told", () => {
  const off = offAxis(points, DOMAIN);
  expect(off.map(({ number, isAbove }) => [number, isAbove])).toEqual([
    [2, true],
    [4, false],
    [6, true],
  ]);
  const told = (isWhole: boolean, language: "en" | "de" = "en") =>
    renderToStaticMarkup(
      <OffAxis
        off={off}
        figure={(value) => `${value} mm`}
        isWhole={isWhole}
        onWhole={() => {}}
        words={WORDS[language].features.chart.offAxis}
      />,
    );
  expect(told(false)).toContain("3 points lie off this axis, the furthest is number 2: 1120.2 mm.");
  expect(told(false)).toContain('aria-pressed="false"');
  expect(told(true)).toContain("The axis spans every point.");
  expect(told(false, "de")).toContain("3 Punkte liegen außerhalb dieser Achse");
});

test("nothing is said where every point lies on the axis", () => {
  expect(offAxis(points.slice(0, 1), DOMAIN)).toEqual([]);
  const words = WORDS.en.features.chart.offAxis;
  const said = <OffAxis off={[]} figure={String} isWhole={false} onWhole={() => {}} words={words} />;
  expect(renderToStaticMarkup(said)).toBe("");
});

test("figures stand at their points with an arrow, within the plot, and never over each other", () => {
  const drawn = (numbers: readonly number[]) =>
    renderToStaticMarkup(
      <svg>
        <title>x</title>
        <EdgeFigures
          off={numbers.map((number) => ({ number, value: 1120.2, isAbove: true, distance: 1 }))}
          x={(number) => 10 * number}
          y={() => 6}
          right={300}
          figure={String}
        />
      </svg>,
    );
  expect(drawn([1])).toContain(">↑ 1120.2<");
  // "↑ 1120.2" is 8 letters, 58 px wide: of neighbours 10 px apart only the first has room.
  expect(drawn([1, 2, 3]).match(/↑/g)).toHaveLength(1);
  expect(drawn([1, 20]).match(/↑/g)).toHaveLength(2);
  expect(Number(/x="([\d.]+)"/.exec(drawn([29]))?.[1])).toBeLessThan(290 - 57);
});
