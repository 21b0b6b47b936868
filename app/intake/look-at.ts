import "server-only";
import type { Mapping } from "../../lib/intake/mapping";
import type { Words } from "../../lib/words/words";
import { database } from "../database";
import { words } from "../language/language";
import type { Look } from "./look";
import { lookAtFile, lookThrough } from "./look-at-file";
import { pathOf, type Upload } from "./uploads";

/** A look at an upload through `mapping`; without one, through the mapping saved for its layout, else a suggestion. */
export async function lookAt(
  folder: string,
  upload: Upload,
  { mapping, plantZone }: { mapping: Mapping | null; plantZone: string },
): Promise<Look> {
  const file = { path: pathOf(folder, upload.id), name: upload.name };
  const db = await database();
  const look = mapping
    ? await lookThrough(db, file, { mapping, plantZone })
    : await lookAtFile(db, file, { plantZone });
  return told(look, (await words()).storedTexts);
}

/** The look with its sentences in the language of the reader. */
function told(look: Look, { say }: Words["storedTexts"]): Look {
  const inMessage = <T extends { message: string }>(of: T): T => ({ ...of, message: say(of.message) });
  return {
    ...look,
    far: say(look.far),
    suggestion: { ...look.suggestion, notes: look.suggestion.notes.map(say) },
    problems: look.problems.map(inMessage),
    notices: look.notices.map(inMessage),
    refused: look.refused.map((row) => ({ ...row, reason: say(row.reason) })),
  };
}
