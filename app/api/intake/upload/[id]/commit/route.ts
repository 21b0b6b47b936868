import { saveMapping } from "../../../../../../db/commands/mappings";
import { mappingByName } from "../../../../../../db/queries/intakes";
import type { Mapping } from "../../../../../../lib/intake/mapping";
import { requireEndpoint } from "../../../../../access";
import { database } from "../../../../../database";
import { lookAt } from "../../../../../intake/look-at";
import { commitRequest } from "../../../../../intake/mapping-schema";
import { answerTo, bodyAs, gone, refuse } from "../../../../../intake/respond";
import { startTaking } from "../../../../../intake/start-job";
import { uploadFolder } from "../../../../../intake/upload-folder";
import { uploadById } from "../../../../../intake/uploads";
import { isAwaited } from "../../../../../jobs/jobs";
import { words } from "../../../../../language/language";
import { plant } from "../../../../../plant";

type Context = { params: Promise<{ id: string }> };

/** Saves the mapping when it has a name, and puts the file into the queue to be taken in. */
export async function POST(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "POST /api/intake/upload/[id]/commit");
  if (asker instanceof Response) return asker;
  const body = await bodyAs(request, commitRequest);
  if (body instanceof Response) return body;

  const folder = uploadFolder();
  const { answers: said } = (await words()).intake;
  const upload = await uploadById(folder, (await params).id);
  if (upload?.accountId !== asker.person.id) return gone();
  if (isAwaited(upload.id)) return refuse(409, said.taking);

  const { zone: plantZone } = await plant();
  const { subgroupSize, saveAs } = body;
  const mapping: Mapping = { ...body.mapping, name: saveAs };
  try {
    const look = await lookAt(folder, upload, { mapping, plantZone });
    const [problem] = look.problems;
    if (problem) return refuse(422, said.notStarted(problem.message));
    const refused = await saveUnder(saveAs, { mapping, fingerprint: look.fingerprint, actor: asker.actor });
    if (refused) return refuse(409, refused);
    const job = await startTaking(folder, upload, { mapping, subgroupSize, plantZone, actor: asker.actor });
    return Response.json({ job }, { status: 202 });
  } catch (error) {
    return answerTo(error);
  }
}

/** Null when it was saved, or had no name; otherwise why nothing was. */
async function saveUnder(name: string, save: Parameters<typeof saveMapping>[1]): Promise<string | null> {
  if (name === "") return null;
  const opened = await database();
  const known = await mappingByName(opened, name);
  if (known && known.fingerprint !== save.fingerprint) {
    return (await words()).intake.answers.otherLayout(name);
  }
  if (known && JSON.stringify(known.mapping) === JSON.stringify(save.mapping)) return null;
  const saved = await saveMapping(opened, save);
  return saved.ok ? null : saved.message;
}
