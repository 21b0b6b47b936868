import { describe, expect, test } from "vitest";
import { askedOf, queryOf } from "../../app/capability/asked";
import { draftOf, formValuesOf, valuesOf } from "../../app/capability/statements/draft";
import { studyWindow } from "../../app/capability/study-window";
import { ENGLISH } from "../../lib/words/words";

describe("what a capability page is asked for", () => {
  test("is the usual where the address says nothing", () => {
    expect(askedOf({}, ENGLISH)).toMatchObject({
      model: "normal",
      target: null,
      gauge: null,
      uncertainty: null,
      faults: {},
    });
  });

  test("goes into an address and comes back", () => {
    const asked = askedOf(
      {
        window: "30",
        model: "box-cox",
        target: "1,67",
        gauge: "0.0012",
        uncertainty: "4e-3",
      },
      ENGLISH,
    );
    expect(asked).toMatchObject({ model: "box-cox", target: 1.67, gauge: 0.0012, uncertainty: 0.004 });
    const again = askedOf(Object.fromEntries(new URLSearchParams(queryOf(asked))), ENGLISH);
    expect(again).toEqual(asked);
  });

  test.each(["two", "-1", "0", "1.2.3", "<b>", "Infinity", "9".repeat(50)])(
    "a target of %s is refused in words, kept as typed, and what the plan asks for is taken",
    (target) => {
      const asked = askedOf({ target }, ENGLISH);
      expect(asked.target).toBeNull();
      expect(asked.faults.target?.typed).toBe(target.slice(0, 40));
      expect(asked.faults.target?.why.length).toBeGreaterThan(10);
    },
  );

  test("a model nobody knows is the normal one, and repeated fields are no fault of the server", () => {
    expect(askedOf({ model: "gamma" }, ENGLISH).model).toBe("normal");
    expect(askedOf({ target: ["1", "2"] }, ENGLISH).target).toBeNull();
  });
});

describe("a window from one day to another", () => {
  const zone = "Europe/Berlin";
  const now = Date.UTC(2026, 10, 16, 6);
  const window = { window: "between", first: "2026-10-01", last: "2026-10-31" };

  test("holds both days whole, by the plant's clock", () => {
    const asked = askedOf(window, ENGLISH);
    expect(asked.window.words).toBe("1 Oct 2026 to 31 Oct 2026");
    expect(asked.windowFault).toBeNull();
    // Summer time, UTC+2, ended on 25 October 2026 in the European Union (directive 2000/84/EC), then UTC+1.
    expect(studyWindow(asked.window, { now, zone })).toEqual({
      from: Date.UTC(2026, 8, 30, 22),
      to: Date.UTC(2026, 9, 31, 23) - 1,
      lots: null,
    });
  });

  test("is passed on in one word, and goes no further than the plant's clock", () => {
    const asked = askedOf({ ...window, last: "2027-01-01" }, ENGLISH);
    const again = askedOf(Object.fromEntries(new URLSearchParams(queryOf(asked))), ENGLISH);
    expect(again).toEqual(asked);
    expect(studyWindow(again.window, { now, zone }).to).toBe(now);
    expect(draftOf(valuesOf({ window: asked.window.slug })).window).toEqual(asked.window);
  });

  test.each([
    [{ last: "2026-09-30" }, "The last day, 30 Sept 2026, lies before the first, 1 Oct 2026."],
    [{ last: "2026-02-30" }, "A window between two days needs both of them."],
    [{ first: "" }, "A window between two days needs both of them."],
    [{ first: ["2026-10-01", "2026-10-02"] }, "A window between two days needs both of them."],
  ])("with %j is refused in words, and the usual one taken", (change, why) => {
    const asked = askedOf({ ...window, ...change }, ENGLISH);
    expect(asked.windowFault).toBe(`${why} The last 90 days are shown instead.`);
    expect(asked.window.slug).toBe("90");
  });
});

describe("what a statement is asked to hold", () => {
  test("is read alike from an address and from a form", () => {
    const address = {
      part: "3",
      window: "90",
      lots: "L-1, L-2;L-1",
      chosen: "1",
      f: ["7", "9"],
      "m-9": "auto",
    };
    const form = new FormData();
    for (const [name, value] of Object.entries(address))
      for (const each of [value].flat()) form.append(name, each);
    const fromAddress = draftOf(valuesOf(address));
    expect(fromAddress).toMatchObject({
      part: 3,
      lots: ["L-1", "L-2"],
      features: [
        { id: 7, model: "normal" },
        { id: 9, model: "auto" },
      ],
      supersedes: null,
    });
    expect(draftOf(formValuesOf(form))).toEqual(fromAddress);
  });

  test("takes no part, feature or model that is none", () => {
    const draft = draftOf(valuesOf({ part: "x", f: ["1e9x", "-4", "2"], "m-2": "gamma", supersedes: "0" }));
    expect(draft).toMatchObject({
      part: null,
      features: [{ id: 2, model: "normal" }],
      supersedes: null,
    });
    expect(draftOf(valuesOf({ part: "3" })).features).toBeNull();
    expect(draftOf(valuesOf({ part: "3", chosen: "1" })).features).toEqual([]);
  });
});
