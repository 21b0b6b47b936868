import "server-only";
import { marksAsSigned } from "../../lib/statement/said-in";
import { plant } from "../plant";
import { writePageWith } from "./marks";

/** For a page that shows what was signed, or will be: its figures are written as a signed sheet in this language is. */
export async function writePageAsSigned(): Promise<void> {
  // Which sets the plant's marks, also for the frame around the page.
  const { spoken } = await plant();
  writePageWith(marksAsSigned(spoken));
}
