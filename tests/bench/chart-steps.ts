import type { Page } from "playwright-core";

/** Milliseconds from an event to the end of the first frame that shows what it did. */
export type ChartSteps = {
  /** The frame over the strip, and the chart, under a hand that drags it. */
  frame: number[];
  drag: number[];
  /** The chart with the points before those it showed, by its link and by a key of a slider. */
  pan: number[];
  key: number[];
  /** The chart with as many points as it shows at most, or with its usual number again. */
  zoom: number[];
};

const DRAGS = 10;
const MOVES = 6;
const PIXELS = 6;
const PANS = 30;
const KEYS = 20;
const ZOOMS = 30;
const GIVE_UP_MS = 10_000;

/** Walks over a long history as a hand does: by dragging the frame over the strip, by the links below it, by keys. */
export async function chartSteps(page: Page): Promise<ChartSteps> {
  const steps = page.getByRole("navigation", { name: "Part of the history" });
  const strip = page.getByRole("img", { name: /^The whole history/ });
  const link = (name: string | RegExp) => steps.getByRole("link", { name });
  const follow = async (name: string | RegExp) =>
    (await painted(page, "click", () => link(name).click())).chart;
  await strip.scrollIntoViewIfNeeded();
  const box = await strip.boundingBox();
  if (!box) throw new Error("The strip under the chart is not there.");

  const found: ChartSteps = { frame: [], drag: [], pan: [], key: [], zoom: [] };
  const y = box.y + box.height / 2;
  for (let i = 0; i < DRAGS; i++) {
    let x = box.x + box.width * (0.1 + 0.08 * i);
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let k = 0; k < MOVES; k++) {
      x += PIXELS;
      const { frame, chart } = await painted(page, "pointermove", () => page.mouse.move(x, y));
      found.frame.push(frame);
      found.drag.push(chart);
    }
    await page.mouse.up();
  }
  for (let i = 0; i < PANS; i++) found.pan.push(await follow("Earlier"));
  const first = page.getByRole("slider", { name: "First subgroup shown" });
  await first.focus();
  for (let i = 0; i < KEYS; i++)
    found.key.push((await painted(page, "keydown", () => page.keyboard.press("ArrowRight"))).chart);
  for (let i = 0; i < ZOOMS; i++) found.zoom.push(await follow(i % 2 === 0 ? /^All/ : "Latest"));
  return found;
}

/** From the event to the end of the frame in which the strip's frame, and of that in which the chart, is elsewhere. */
async function painted(
  page: Page,
  event: string,
  act: () => Promise<unknown>,
): Promise<{ frame: number; chart: number }> {
  const watch = await page.evaluateHandle(
    ({ event, giveUpMs }) => {
      const chart = document.querySelector('[role="slider"][aria-valuemin][aria-valuetext]');
      const [first, last] = document.querySelectorAll("label output");
      const isOf = (edge: "min" | "max") => chart?.getAttribute(`aria-value${edge}`);
      const wanted = () => `${first?.textContent} ${last?.textContent}`;
      const shown = () => `${isOf("min")} ${isOf("max")}`;
      const before = wanted();
      const time = new Promise<{ frame: number; chart: number }>((resolve, reject) => {
        let begun = Number.NaN;
        let frame: Promise<number> | null = null;
        const note = (happened: Event) => {
          begun = happened.timeStamp;
        };
        addEventListener(event, note, { capture: true, once: true });
        // What is posted within a frame is read after it was painted.
        const afterFrame = () =>
          new Promise<number>((done) =>
            requestAnimationFrame(() => {
              const { port1, port2 } = new MessageChannel();
              port1.onmessage = () => done(performance.now() - begun);
              port2.postMessage(null);
            }),
          );
        const observer = new MutationObserver(async () => {
          if (wanted() === before) return;
          frame ??= afterFrame();
          if (shown() !== wanted()) return;
          observer.disconnect();
          const chartAt = afterFrame();
          resolve({ frame: await frame, chart: await chartAt });
        });
        observer.observe(document.body, {
          subtree: true,
          characterData: true,
          childList: true,
          attributeFilter: ["aria-valuemin", "aria-valuemax"],
        });
        setTimeout(
          () => reject(new Error(`After ${event} the chart shows ${shown()}, the frame ${wanted()}.`)),
          giveUpMs,
        );
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
