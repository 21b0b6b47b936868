import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { StripMarks } from "../../app/features/[id]/strip-marks";

test.each([
  ["", ""],
  ["0.13,40.1", '<use href="#mark" x="0.13%" y="40.1"></use>'],
  ["5,8 7.5,60 5,8", '<use href="#mark" x="5%" y="8"></use><use href="#mark" x="7.5%" y="60"></use>'],
])("marks at “%s”, each place once", (places, drawn) => {
  expect(renderToStaticMarkup(<StripMarks shape="mark" places={places} />)).toBe(drawn);
});
