import { afterEach, beforeEach, vi } from "vitest";

/*
 * An unexpected `console.error` fails the test it came from: React's warnings and swallowed faults arrive there.
 * A test that expects one replaces the function itself.
 */

let written: string[] = [];

beforeEach(() => {
  written = [];
  vi.spyOn(console, "error").mockImplementation((...parts) => {
    written.push(parts.map(String).join(" "));
  });
});

afterEach(() => {
  vi.mocked(console.error).mockRestore?.();
  if (written.length > 0) throw new Error(`console.error was called: ${written.join("\n")}`);
});
