import "server-only";
import { USUAL_MARKS } from "../../lib/format/marks";
import { plant } from "../plant";
import { writePageWith } from "./marks";

/** For a page that shows what was signed, or will be: its sentences hold figures, and stay as they are. */
export async function writePageAsSigned(): Promise<void> {
  await plant(); // Which sets the plant's marks, also for the frame around the page.
  writePageWith(USUAL_MARKS);
}
