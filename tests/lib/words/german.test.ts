import { describe, expect, test } from "vitest";
import { placeOnBoard } from "../../../lib/board/bands";
import { excursionWords, storedExcursionIn } from "../../../lib/evaluation/excursion-words";
import type { ExcursionRule } from "../../../lib/evaluation/progress";
import { agoWords, dayIn, momentIn } from "../../../lib/format/times";
import { RULES } from "../../../lib/rules/known-rules";
import { fill, pieces } from "../../../lib/words/fill";
import { WORDS } from "../../../lib/words/words";

/*
 * German texts worked out by hand: words of DIN ISO 7870-1 (Eingriffsgrenze, Mittellinie) and DIN EN ISO 9000 from
 * memory, months and days of the week as CLDR abbreviates them.
 */

const { de, en } = WORDS;
const DAY = 86_400_000;

test("moments and ages", () => {
  const at = Date.UTC(2024, 10, 11, 7, 10);
  expect(momentIn(at, "UTC", de.times)).toBe("Mo., 11. Nov. 2024, 07:10");
  expect(dayIn(at, "UTC", de.times)).toBe("11. Nov. 2024");
  expect(agoWords(at - 3 * DAY, at, de.times)).toBe("vor 3 Tagen");
  expect(agoWords(at - 400 * DAY, at, de.times)).toBe("vor 1 Jahr");
  expect(agoWords(at - 35 * DAY, at, de.times)).toBe("vor 5 Wochen");
  expect(agoWords(at + 800 * DAY, at, de.times)).toBe("in 2 Jahren");
});

test("a hole is filled by its name, or left to be seen", () => {
  expect(fill("Seite {page} von {count}", { page: 1, count: 3 })).toBe("Seite 1 von 3");
  expect(fill("seit {time}", {})).toBe("seit {time}");
  expect(pieces("gehen Sie die {alarms} durch.")).toEqual(["gehen Sie die ", "alarms", " durch."]);
});

describe("what an alarm keeps in English is said in German", () => {
  test("by hand", () => {
    expect(storedExcursionIn("Beyond 3 sigma above; 9 above centre", de.rules)).toBe(
      "Jenseits 3 Sigma oben; 9 über der Mittellinie",
    );
    expect(storedExcursionIn("Moving range beyond 3 sigma above", de.rules)).toBe(
      "Gleitende Spannweite jenseits 3 Sigma oben",
    );
    expect(storedExcursionIn("Weighted average beyond its limit below", de.rules)).toBe(
      "Gewichteter Mittelwert jenseits der Grenze unten",
    );
    expect(storedExcursionIn("Something of before", de.rules)).toBe("Something of before");
  });

  test("law: every known rule, chart and direction comes out as if it had been said in German at once", () => {
    for (const kind of ["xbar-r", "xbar-s", "i-mr"] as const)
      for (const { slug } of RULES)
        for (const direction of ["up", "down"] as const)
          for (const chart of ["location", "spread"] as const) {
            const rules = [{ rule: slug, chart, direction }] as unknown as ExcursionRule[];
            const stored = excursionWords(rules, kind);
            expect(storedExcursionIn(stored, en.rules)).toBe(stored);
            expect(storedExcursionIn(stored, de.rules)).toBe(excursionWords(rules, kind, de.rules));
          }
  });
});

test("a silent feature says for how long", () => {
  const facts = {
    standing: {
      lastAt: 0,
      subgroups: 30,
      limitsVersion: 1,
      tooFewForFinal: false,
      ppkAtLeast: null,
      recentReadings: 10,
      ppk: null,
      readings: 150,
    },
    alarm: null,
    tolerance: { lower: 1, upper: 2 },
    asked: 1,
    now: 9 * DAY,
  };
  expect(placeOnBoard(facts, de).reason).toBe("9 Tage lang keine Messung: Niemand weiß, wie es steht.");
});
