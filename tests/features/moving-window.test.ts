import { describe, expect, test } from "vitest";
import { type Made, movingWindow } from "../../app/features/[id]/moving-window";
import type { ChartStretch } from "../../lib/chart/chart-view";
import type { ShownWindow } from "../../lib/chart/shown-window";

/*
 * What a hand that moves over a long history sees, with a server that answers when the test says so.
 */

const stretchOf = ({ from, to }: ShownWindow) => ({ from, to }) as ChartStretch;

const COUNT = 100_000;
const LATEST = { from: COUNT - 120, to: COUNT - 1 };

function page(made: Partial<Made> = {}) {
  const asked: {
    range: ShownWindow;
    answer: (stretch?: ChartStretch) => void;
    fail: (why: string) => void;
  }[] = [];
  const moving = movingWindow(
    { stretch: stretchOf(LATEST), window: LATEST, asked: null, count: COUNT, ...made },
    (range) =>
      new Promise((resolve, reject) => {
        asked.push({
          range,
          answer: (stretch = stretchOf(range)) => resolve(stretch),
          fail: (why) => reject(new Error(why)),
        });
      }),
  );
  /** Answers the oldest request that waits, and lets what follows happen. */
  const answered = async (stretch?: ChartStretch) => {
    const next = asked.shift();
    if (!next) throw new Error("Nothing was asked for.");
    next.answer(stretch);
    await Promise.resolve();
    await new Promise((resolve) => setTimeout(resolve));
    return next.range;
  };
  return { moving, asked, answered };
}

const at = (from: number, width = 120): ShownWindow => ({ from, to: from + width - 1 });

test("a window elsewhere is fetched by itself, then what lies about it; steps within that wait for nobody", async () => {
  const { moving, asked, answered } = page();
  moving.show(at(5_000), { asked: at(5_000) });
  expect(moving.state().wanted).toEqual(at(5_000));
  expect(moving.state().shown).toEqual(LATEST);
  expect(await answered()).toEqual(at(5_000));
  expect(moving.state().shown).toEqual(at(5_000));
  expect(await answered()).toEqual({ from: 4_500, to: 5_619 });
  expect(asked).toEqual([]);

  moving.show(at(4_880), { asked: at(4_880) });
  expect(moving.state().shown).toEqual(at(4_880));
  moving.show(at(4_620, 500), { asked: at(4_620, 500) });
  expect(moving.state().shown).toEqual(at(4_620, 500));
});

test("who drags far gets what is under the hand when the answer before is there, and nothing of in between", async () => {
  const { moving, asked, answered } = page();
  for (const from of [10_000, 20_000, 30_000]) {
    moving.show(at(from), { asked: at(from), isMoving: true });
  }
  expect(asked).toHaveLength(1);
  expect(await answered()).toEqual(at(10_000));
  // It is shown, for it shows the way, and is held as what is shown always is.
  expect(moving.state().shown).toEqual(at(10_000));
  expect(moving.state().stretch).toMatchObject(at(10_000));
  expect(await answered()).toEqual(at(30_000));
  expect(moving.state().shown).toEqual(at(30_000));
  expect(asked).toEqual([]);
  moving.show(at(30_000), { asked: at(30_000) });
  expect(await answered()).toEqual({ from: 29_500, to: 30_619 });
});

test("a hand that comes near has what lies about the window fetched, once", async () => {
  const { moving, asked, answered } = page();
  moving.warm();
  moving.warm();
  expect(await answered()).toEqual({ from: COUNT - 620, to: COUNT - 1 });
  moving.warm();
  expect(asked).toEqual([]);
  const short = page({ stretch: stretchOf(at(0, 90)), window: at(0, 90), count: 90 });
  short.moving.warm();
  expect(short.asked).toEqual([]);
});

describe("a server that does not answer", () => {
  test("is told where the points are needed, and asked again on a press; what is shown stays", async () => {
    const { moving, asked, answered } = page();
    moving.show(at(5_000), { asked: at(5_000) });
    asked.shift()!.fail("the server does not answer.");
    await new Promise((resolve) => setTimeout(resolve));
    expect(moving.state()).toMatchObject({ fault: "the server does not answer.", shown: LATEST });
    moving.again();
    expect(moving.state().fault).toBeNull();
    await answered();
    expect(moving.state()).toMatchObject({ fault: null, shown: at(5_000) });
  });

  test("is of no concern while all that is needed is there", async () => {
    const { moving, asked } = page();
    moving.warm();
    asked.shift()!.fail("the server does not answer.");
    await new Promise((resolve) => setTimeout(resolve));
    expect(moving.state().fault).toBeNull();
  });

  test("and a history that has become shorter is not asked for again and again", async () => {
    const { moving, asked, answered } = page();
    moving.show(at(5_000), { asked: at(5_000) });
    await answered(stretchOf({ from: 5_000, to: 5_050 }));
    expect(asked).toEqual([]);
    expect(moving.state().shown).toEqual(LATEST);
  });
});

describe("a page that is made anew", () => {
  const later = { from: COUNT - 115, to: COUNT + 4 };

  test("brings its own window where nobody has moved meanwhile", () => {
    const { moving } = page();
    moving.adopt({ stretch: stretchOf(later), window: later, asked: null, count: COUNT + 5 });
    expect(moving.state()).toMatchObject({ shown: later, wanted: later, stretch: later });
  });

  test("leaves who has moved where they are, with measurements as they now are", async () => {
    const { moving, asked, answered } = page();
    moving.show(at(5_000), { asked: at(5_000) });
    await answered();
    const early = asked[0]!;
    moving.adopt({ stretch: stretchOf(later), window: later, asked: null, count: COUNT + 5 });
    expect(moving.state().shown).toEqual(at(5_000));
    // What was asked for before has other measurements, and is not taken.
    expect(early.range).toEqual({ from: 4_500, to: 5_619 });
    await answered();
    expect(moving.state().stretch).toMatchObject(at(5_000));
    expect(await answered()).toEqual(at(5_000));
    expect(moving.state()).toMatchObject({ shown: at(5_000), wanted: at(5_000) });
  });
});

test("without points of its own it only says where the frame is", () => {
  const { moving, asked } = page({ stretch: null });
  moving.show(at(5_000), { asked: at(5_000) });
  expect(moving.state()).toMatchObject({ shown: at(5_000), wanted: at(5_000) });
  expect(asked).toEqual([]);
});
