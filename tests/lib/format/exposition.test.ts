import { expect, test } from "vitest";
import { expositionText } from "../../../lib/format/exposition";

test("by hand: help, type and samples, each on a line of its own", () => {
  const text = expositionText([
    {
      name: "alarms_open",
      help: "Alarms, by state.",
      type: "gauge",
      samples: [{ labels: { state: "shelved" }, value: 2 }],
    },
    { name: "cpu_seconds_total", help: "Time.", type: "counter", samples: [{ value: 0.5 }] },
  ]);
  expect(text).toBe(
    '# HELP alarms_open Alarms, by state.\n# TYPE alarms_open gauge\nalarms_open{state="shelved"} 2\n' +
      "# HELP cpu_seconds_total Time.\n# TYPE cpu_seconds_total counter\ncpu_seconds_total 0.5\n",
  );
});

test("by hand: what would break a line is escaped, and what is no number has its word", () => {
  const text = expositionText([
    {
      name: "x",
      help: "a\\b\nc",
      type: "gauge",
      samples: [{ labels: { y: 'say "n\no"\\' }, value: Number.POSITIVE_INFINITY }, { value: Number.NaN }],
    },
  ]);
  expect(text.split("\n")).toEqual([
    "# HELP x a\\\\b\\nc",
    "# TYPE x gauge",
    'x{y="say \\"n\\no\\"\\\\"} +Inf',
    "x NaN",
    "",
  ]);
});
