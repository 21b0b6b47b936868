import type { MachineRequest } from "./straight";

const A_MB = 1024 * 1024;
const USUAL_MB = 2;

/** The largest body a request may have: STEADYREST_MAX_POST_MB, or 2 MB, which is some thousand measurements. */
export function mostPostBytes(): number {
  const mb = Number(process.env.STEADYREST_MAX_POST_MB);
  return (Number.isFinite(mb) && mb > 0 ? mb : USUAL_MB) * A_MB;
}

/** A body, or the status and the end of the sentence that refuses it. */
export type LimitedBody = { ok: true; text: string } | { ok: false; status: 400 | 413; why: string };

/** A request's body as text, read no further than it may be long, whatever length it claims to have. */
export async function readLimited(
  request: Pick<MachineRequest, "headers" | "body">,
  mostBytes = mostPostBytes(),
): Promise<LimitedBody> {
  if (Number(request.headers.get("content-length") ?? 0) > mostBytes) return tooLarge(mostBytes);
  const chunks: Uint8Array[] = [];
  let length = 0;
  if (request.body) {
    for await (const chunk of request.body as unknown as AsyncIterable<Uint8Array>) {
      length += chunk.length;
      if (length > mostBytes) return tooLarge(mostBytes);
      chunks.push(chunk);
    }
  }
  try {
    return { ok: true, text: new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(chunks)) };
  } catch {
    return { ok: false, status: 400, why: "the body is not UTF-8. JSON is always sent in UTF-8." };
  }
}

function tooLarge(mostBytes: number): LimitedBody {
  const why = `a request holds at most ${mostBytes / A_MB} MB (STEADYREST_MAX_POST_MB). Send less at once, or bring a file.`;
  return { ok: false, status: 413, why };
}
