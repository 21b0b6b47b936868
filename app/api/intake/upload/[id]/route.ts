import { requireEndpoint } from "../../../../access";
import { gone, refuse } from "../../../../intake/respond";
import { uploadFolder } from "../../../../intake/upload-folder";
import { discard, uploadById } from "../../../../intake/uploads";
import { isAwaited } from "../../../../jobs/jobs";
import { words } from "../../../../language/language";

type Context = { params: Promise<{ id: string }> };

/** Throws an upload away before it is committed. */
export async function DELETE(request: Request, { params }: Context): Promise<Response> {
  const asker = await requireEndpoint(request, "DELETE /api/intake/upload/[id]");
  if (asker instanceof Response) return asker;
  const upload = await uploadById(uploadFolder(), (await params).id);
  if (upload?.accountId !== asker.person.id) return gone();
  if (isAwaited(upload.id)) {
    return refuse(409, (await words()).intake.answers.discard);
  }
  await discard(uploadFolder(), upload.id);
  return new Response(null, { status: 204 });
}
