import { expect, test } from "vitest";
import { nextAddress } from "../../app/sign-in/next-address";

test.each([
  ["/features/12", "/features/12"],
  ["/?line=A&source=tool+T-114", "/?line=A&source=tool+T-114"],
  ["/plan#features", "/plan#features"],
])("back to %s", (wanted, address) => {
  expect(nextAddress(wanted)).toBe(address);
});

test.each([
  "https://example.org/",
  "//example.org/",
  "/\\example.org",
  "/\t/example.org",
  "javascript:alert(1)",
  "features",
  "",
  "/sign-in?next=/",
  undefined,
  ["/a", "/b"],
])("to the shift board instead of %s", (wanted) => {
  expect(nextAddress(wanted)).toBe("/");
});
