import { type Drawing, type Meaning, pictureFile } from "../../lib/chart/picture-file";

/** Pixels across that print sharp on half a page. */
const SHARP_WIDTH = 1800;

/** What a look is made of; everything else stands in the markup itself. */
const LOOKS = [
  "fill",
  "fill-opacity",
  "stroke",
  "stroke-width",
  "stroke-dasharray",
  "stroke-opacity",
  "stroke-linecap",
  "stroke-linejoin",
  "opacity",
  "visibility",
];
const LETTER_LOOKS = ["font-size", "font-weight", "font-style", "text-anchor", "dominant-baseline"];

/** Smaller ones are marks of a legend or signs on a button. */
const SMALLEST_CHART = 40;

/**
 * The chart inside an element as a picture for paper: what is drawn there, in the light look whatever the page
 * shows, with its legend (`data-legend`) and without what stands there for a moment only (`data-passing`).
 */
export function drawnChart(frame: HTMLElement, { title, about }: { title: string; about: string }) {
  // The tokens take their tones where they are declared. Read before the browser paints, so nobody sees another look.
  const page = document.documentElement;
  const theme = page.getAttribute("data-theme");
  page.setAttribute("data-theme", "light");
  frame.style.setProperty("forced-color-adjust", "none");
  try {
    const charts = [...frame.querySelectorAll("svg")].filter((svg) => {
      const { width, height } = svg.getBoundingClientRect();
      return width > SMALLEST_CHART && height > SMALLEST_CHART && svg.parentElement?.closest("svg") === null;
    });
    const boxes = charts.map((svg) => svg.getBoundingClientRect());
    const left = Math.min(...boxes.map((box) => box.left));
    const top = Math.min(...boxes.map((box) => box.top));
    const drawings = charts.map((svg, i): Drawing => {
      const box = boxes[i]!;
      return {
        markup: markupOf(svg),
        left: box.left - left,
        top: box.top - top,
        width: box.width,
        height: box.height,
        viewBox: svg.getAttribute("viewBox"),
      };
    });
    const legend = [...frame.querySelectorAll("[data-legend] > li")].map((entry): Meaning => {
      const mark = entry.querySelector("svg");
      return { markup: mark ? markupOf(mark) : "", words: entry.textContent?.trim() ?? "" };
    });
    return pictureFile({
      title,
      about,
      drawings,
      legend,
      width: Math.max(...boxes.map((box) => box.right)) - left,
      height: Math.max(...boxes.map((box) => box.bottom)) - top,
    });
  } finally {
    frame.style.removeProperty("forced-color-adjust");
    if (theme === null) page.removeAttribute("data-theme");
    else page.setAttribute("data-theme", theme);
  }
}

function markupOf(svg: SVGSVGElement): string {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  const originals = [...svg.querySelectorAll("*")];
  const copies = [...copy.querySelectorAll("*")];
  for (const [i, element] of copies.entries()) takeLooks(originals[i]!, element);
  for (const passing of copy.querySelectorAll("[data-passing]")) passing.remove();
  const write = new XMLSerializer();
  return [...copy.childNodes].map((node) => write.serializeToString(node)).join("");
}

function takeLooks(from: Element, to: Element): void {
  const looks = getComputedStyle(from);
  const isLetters = from instanceof SVGTextContentElement;
  const names = isLetters ? [...LOOKS, ...LETTER_LOOKS] : LOOKS;
  const kept =
    looks.display === "none" ? ["display:none"] : names.map((name) => `${name}:${plain(looks, name)}`);
  to.removeAttribute("class");
  // Said again in the style, in tones instead of tokens, which nobody knows outside these pages.
  for (const { name, value } of [...to.attributes]) if (value.includes("var(")) to.removeAttribute(name);
  to.setAttribute("style", kept.join(";"));
}

/** Programs that draw SVG 1.1 know rgb() only; a browser also answers with mixed colours. */
function plain(looks: CSSStyleDeclaration, name: string): string {
  const value = looks.getPropertyValue(name);
  if (!/^(color|oklab|oklch|lab|lch)\(/.test(value)) return value;
  const point = document.createElement("canvas").getContext("2d");
  if (!point) return value;
  point.fillStyle = value;
  point.fillRect(0, 0, 1, 1);
  const [red, green, blue, alpha] = point.getImageData(0, 0, 1, 1).data;
  return `rgba(${red}, ${green}, ${blue}, ${((alpha ?? 255) / 255).toFixed(3)})`;
}

/** The same as pixels. */
export async function pngOf({
  svg,
  width,
  height,
}: {
  svg: string;
  width: number;
  height: number;
}): Promise<Blob> {
  const scale = Math.max(2, SHARP_WIDTH / width);
  const address = URL.createObjectURL(new Blob([svg], { type: "image/svg+xml" }));
  try {
    const image = new Image(width, height);
    image.src = address;
    await image.decode();
    const canvas = document.createElement("canvas");
    canvas.width = Math.round(width * scale);
    canvas.height = Math.round(height * scale);
    canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
    return await new Promise((resolve, reject) =>
      canvas.toBlob(
        (blob) => (blob ? resolve(blob) : reject(new Error("No picture came out."))),
        "image/png",
      ),
    );
  } finally {
    URL.revokeObjectURL(address);
  }
}
