import { requireEndpoint } from "../../../../../access";
import { lookAt } from "../../../../../intake/look-at";
import { lookRequest } from "../../../../../intake/mapping-schema";
import { answerTo, bodyAs, gone } from "../../../../../intake/respond";
import { uploadFolder } from "../../../../../intake/upload-folder";
import { keep, uploadById } from "../../../../../intake/uploads";
import { plant } from "../../../../../plant";

type Context = { params: Promise<{ id: string }> };

/** The first look again, for a page that was loaded anew. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "GET /api/intake/upload/[id]/look");
  if (asker instanceof Response) return asker;
  return look((await params).id, asker.person.id, null);
}

/** A look through a mapping that the person is changing. */
export async function POST(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "POST /api/intake/upload/[id]/look");
  if (asker instanceof Response) return asker;
  const body = await bodyAs(request, lookRequest);
  if (body instanceof Response) return body;
  return look((await params).id, asker.person.id, body.mapping);
}

async function look(
  id: string,
  accountId: number,
  mapping: Parameters<typeof lookAt>[2]["mapping"],
): Promise<Response> {
  const folder = uploadFolder();
  const upload = await uploadById(folder, id);
  if (upload?.accountId !== accountId) return gone();
  try {
    await keep(folder, id);
    return Response.json({
      look: await lookAt(folder, upload, { mapping, plantZone: (await plant()).zone }),
    });
  } catch (error) {
    return answerTo(error);
  }
}
