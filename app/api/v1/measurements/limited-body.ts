const A_MB = 1024 * 1024;
const USUAL_MB = 2;

/** The largest body a request may have: STEADYREST_MAX_POST_MB, or 2 MB, which is some thousand measurements. */
export function mostPostBytes(): number {
  const mb = Number(process.env.STEADYREST_MAX_POST_MB);
  return (Number.isFinite(mb) && mb > 0 ? mb : USUAL_MB) * A_MB;
}

/** A request's body as text, read no further than it may be long, whatever length it claims to have. */
export async function readLimited(
  request: Request,
  mostBytes: number,
): Promise<string | "too-large" | "not-utf-8"> {
  if (Number(request.headers.get("content-length") ?? 0) > mostBytes) return "too-large";
  const chunks: Uint8Array[] = [];
  let length = 0;
  if (request.body) {
    for await (const chunk of request.body as unknown as AsyncIterable<Uint8Array>) {
      length += chunk.length;
      if (length > mostBytes) return "too-large";
      chunks.push(chunk);
    }
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(Buffer.concat(chunks));
  } catch {
    return "not-utf-8";
  }
}
