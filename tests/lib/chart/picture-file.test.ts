import { SaxesParser } from "saxes";
import { describe, expect, test } from "vitest";
import { pictureFile } from "../../../lib/chart/picture-file";

const drawing = {
  markup: '<path d="M0 0H10" style="stroke:rgb(0, 114, 178)"/>',
  left: 0,
  top: 20,
  width: 600,
  height: 200,
  viewBox: null,
};

/** Every element of a text that a strict XML parser takes, with its attributes; it throws at what is not well-formed. */
function elementsOf(svg: string): { name: string; attributes: Record<string, string>; text: string }[] {
  const found: { name: string; attributes: Record<string, string>; text: string }[] = [];
  const parser = new SaxesParser();
  parser.on("opentag", ({ name, attributes }) => {
    found.push({ name, attributes: attributes as Record<string, string>, text: "" });
  });
  parser.on("text", (text) => {
    const last = found.at(-1);
    if (last) last.text += text;
  });
  parser.write(svg).close();
  return found;
}

describe("a chart as a picture that stands alone", () => {
  test("by hand: heading, drawings and legend lie within it, below each other, on white", () => {
    const legend = [{ markup: '<path d="M8 8"/>', words: "beyond a limit" }];
    const { svg, width, height } = pictureFile({
      title: "Bore: Control chart",
      about: "H-210, 1 Aug to 2 Nov",
      drawings: [drawing],
      legend,
      width: 600,
      height: 220,
    });
    const [root, ...rest] = elementsOf(svg);
    expect(root?.attributes).toMatchObject({
      xmlns: "http://www.w3.org/2000/svg",
      width: String(width),
      height: String(height),
    });
    // 16 px of edge on either side of 600.
    expect(width).toBe(632);
    expect(rest.find(({ name }) => name === "rect")?.attributes.fill).toBe("#ffffff");
    const [chart, mark] = rest.filter(({ name }) => name === "svg");
    const bottom = Number(chart?.attributes.y) + 200;
    expect(Number(mark?.attributes.y)).toBeGreaterThanOrEqual(bottom);
    expect(Number(mark?.attributes.y) + 16).toBeLessThanOrEqual(height);
    expect(rest.filter(({ name }) => name === "text").map(({ text }) => text.trim())).toEqual([
      "Bore: Control chart",
      "H-210, 1 Aug to 2 Nov",
      "beyond a limit",
    ]);
  });

  test("names that hold markup stay text", () => {
    const { svg } = pictureFile({
      title: 'Slot <b> & "face"',
      about: "",
      drawings: [drawing],
      legend: [],
      width: 600,
      height: 220,
    });
    const texts = elementsOf(svg).filter(({ name }) => name === "text");
    expect(texts.map(({ text }) => text.trim())).toEqual(['Slot <b> & "face"']);
  });

  test("a long title takes further lines instead of leaving the picture", () => {
    const one = pictureFile({
      title: "Bore",
      about: "",
      drawings: [drawing],
      legend: [],
      width: 300,
      height: 220,
    });
    const long = pictureFile({
      title: "Bearing seat of the output shaft, drive side, over the whole length of the seat",
      about: "",
      drawings: [drawing],
      legend: [],
      width: 300,
      height: 220,
    });
    expect(long.height).toBeGreaterThan(one.height);
  });

  test("nothing drawn is a mistake of the caller", () => {
    expect(() =>
      pictureFile({ title: "Bore", about: "", drawings: [], legend: [], width: 1, height: 1 }),
    ).toThrow("pictureFile requires drawings");
  });
});
