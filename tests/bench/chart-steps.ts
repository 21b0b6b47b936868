import type { Locator, Page } from "playwright-core";

/** Milliseconds from an event to the end of the first frame that shows what it did. */
export type ChartSteps = {
  /** The frame over the strip follows the hand. */
  drag: number[];
  /** The chart with the points before those it showed, or those under the frame that was let go. */
  pan: number[];
  /** The chart with as many points as it shows at most, or with its usual number again. */
  zoom: number[];
};

const DRAGS = 10;
const MOVES = 6;
const PIXELS = 6;
const PANS = 20;
const ZOOMS = 20;
const GIVE_UP_MS = 10_000;

/** Walks over a long history as a hand does: by dragging the frame over the strip, and by the links below it. */
export async function chartSteps(page: Page): Promise<ChartSteps> {
  const chart = page.getByRole("slider", { name: "Subgroups on the control chart" });
  const first = page.locator("label", { hasText: "First subgroup shown" }).locator("output");
  const steps = page.getByRole("navigation", { name: "Part of the history" });
  const strip = page.getByRole("img", { name: /^The whole history/ });
  const link = (name: string | RegExp) => steps.getByRole("link", { name });
  const follow = (name: string | RegExp) => painted(chart, "click", () => link(name).click());
  await strip.scrollIntoViewIfNeeded();
  const box = await strip.boundingBox();
  if (!box) throw new Error("The strip under the chart is not there.");

  const found: ChartSteps = { drag: [], pan: [], zoom: [] };
  const y = box.y + box.height / 2;
  for (let i = 0; i < DRAGS; i++) {
    let x = box.x + box.width * (0.1 + 0.08 * i);
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let k = 0; k < MOVES; k++) {
      x += PIXELS;
      found.drag.push(await painted(first, "pointermove", () => page.mouse.move(x, y)));
    }
    found.pan.push(await painted(chart, "pointerup", () => page.mouse.up()));
  }
  for (let i = 0; i < PANS; i++) found.pan.push(await follow("Earlier"));
  for (let i = 0; i < ZOOMS; i++) found.zoom.push(await follow(i % 2 === 0 ? /^All/ : "Latest"));
  return found;
}

/** From the event to the end of the frame in which the element says something else than before. */
async function painted(element: Locator, event: string, act: () => Promise<unknown>): Promise<number> {
  const watch = await element.evaluateHandle(
    (watched, { event, giveUpMs }) => {
      const time = new Promise<number>((resolve, reject) => {
        let begun = Number.NaN;
        const note = (happened: Event) => {
          begun = happened.timeStamp;
        };
        addEventListener(event, note, { capture: true, once: true });
        const observer = new MutationObserver(() => {
          observer.disconnect();
          // What is posted within a frame is read after it was painted.
          requestAnimationFrame(() => {
            const { port1, port2 } = new MessageChannel();
            port1.onmessage = () => resolve(performance.now() - begun);
            port2.postMessage(null);
          });
        });
        const isText = watched.tagName === "OUTPUT";
        if (isText) observer.observe(watched, { characterData: true, childList: true, subtree: true });
        else observer.observe(watched, { attributeFilter: ["aria-valuemin"] });
        setTimeout(() => reject(new Error(`Nothing changed after ${event}.`)), giveUpMs);
      });
      // Within an object, or the caller would wait for it before anything happens.
      return { time };
    },
    { event, giveUpMs: GIVE_UP_MS },
  );
  await act();
  return watch.evaluate(({ time }) => time);
}

export type DrawnPoints = { line: number; marks: number; missing: number };

/** Points that the strip draws, and how many signalled subgroups have neither a corner of its line nor a mark over them. */
export function drawnPoints(
  page: Page,
  signalled: readonly number[],
  { reach }: { reach: number },
): Promise<DrawnPoints> {
  return page.getByRole("img", { name: /^The whole history/ }).evaluate(
    (strip, { signalled, reach }) => {
      const corners = strip.querySelector("polyline")?.getAttribute("points")?.split(" ") ?? [];
      const onLine = new Set(corners.map((corner) => Math.floor(Number(corner.split(",")[0]))));
      const count = Number(strip.querySelector("svg")?.getAttribute("viewBox")?.split(" ")[2]);
      const marks = [...strip.querySelectorAll("use")];
      const shares = marks.map((mark) => Number.parseFloat(mark.getAttribute("x") ?? "") / 100);
      const isCovered = (subgroup: number) =>
        shares.some((share) => Math.abs(share - (subgroup + 0.5) / count) <= reach);
      const missing = signalled.filter((subgroup) => !onLine.has(subgroup) && !isCovered(subgroup));
      return { line: corners.length, marks: marks.length, missing: missing.length };
    },
    { signalled, reach },
  );
}
