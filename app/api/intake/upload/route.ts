import { requireEndpoint } from "../../../access";
import { lookAt } from "../../../intake/look-at";
import { fileLabel } from "../../../intake/mapping-schema";
import { answerTo, refuse } from "../../../intake/respond";
import { mostUploadBytes, uploadFolder } from "../../../intake/upload-folder";
import { discard, receive } from "../../../intake/uploads";
import { words } from "../../../language/language";
import { plant } from "../../../plant";

/**
 * Receives one file as the body of the request and answers with a first look at it. The address names it:
 * `?name=friday.csv`. A file that cannot be read at all is not kept.
 */
export async function POST(request: Request): Promise<Response> {
  const asker = await requireEndpoint(request, "POST /api/intake/upload");
  if (asker instanceof Response) return asker;
  const { answers: said } = (await words()).intake;
  const name = fileLabel.safeParse(new URL(request.url).searchParams.get("name") ?? "");
  if (!name.success) return refuse(400, said.noName);
  if (!request.body) return refuse(422, said.empty);

  const folder = uploadFolder();
  const announced = request.headers.get("content-length");
  try {
    const upload = await receive(folder, request.body as import("node:stream/web").ReadableStream, {
      name: name.data,
      accountId: asker.person.id,
      at: Date.now(),
      announcedBytes: announced === null ? null : Number(announced),
      mostBytes: mostUploadBytes(),
    });
    const { zone } = await plant();
    const look = await lookAt(folder, upload, { mapping: null, plantZone: zone }).catch(async (error) => {
      await discard(folder, upload.id);
      throw error;
    });
    const { id, bytes } = upload;
    return Response.json({ file: { id, name: upload.name, bytes }, look }, { status: 201 });
  } catch (error) {
    return answerTo(error);
  }
}
