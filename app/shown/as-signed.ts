import "server-only";
import { marksAsSigned } from "../../lib/statement/said-in";
import { language } from "../language/language";
import { plant } from "../plant";
import { writePageWith } from "./marks";

/** For a page that shows what was signed, or will be: its figures are written as a signed sheet in this language is. */
export async function writePageAsSigned(): Promise<void> {
  await plant(); // Which sets the plant's marks, also for the frame around the page.
  writePageWith(marksAsSigned(await language()));
}
