import "server-only";
import { cache } from "react";
import { type Marks, USUAL_MARKS, writeMarksOf } from "../../lib/format/marks";

/** One for each page that is being made. Outside of that, in an action or an endpoint, nobody finds what was set. */
const ofPage = cache((): { marks: Marks } => ({ marks: USUAL_MARKS }));

writeMarksOf(() => ofPage().marks);

/** Has the figures of the page that is being made be written with these marks. */
export function writePageWith(marks: Marks): void {
  ofPage().marks = marks;
}
