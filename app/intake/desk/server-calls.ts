import type { TouchedFeature } from "../../../db/queries/intakes";
import type { Mapping } from "../../../lib/intake/mapping";
import { fill } from "../../../lib/words/fill";
import type { Words } from "../../../lib/words/words";
import type { Job } from "../../jobs/job";
import type { Look, WaitingFile } from "../look";
import type { CommitRequest } from "../mapping-schema";

/** What the server answered, or the sentence that says why it did not. */
export type Answer<T> = { ok: true; value: T } | { ok: false; message: string };

/** What is said when no answer comes. */
export type ServerWords = Words["desk"]["server"];

/** Sends a file as it is, telling how much of it has gone. */
export function sendFile(
  file: File,
  { onSent, signal, words }: { onSent: (share: number) => void; signal: AbortSignal; words: ServerWords },
): Promise<Answer<{ file: WaitingFile; look: Look }>> {
  return new Promise((resolve) => {
    // fetch() does not tell how far a body has gone.
    const request = new XMLHttpRequest();
    request.open("POST", `/api/intake/upload?name=${encodeURIComponent(file.name)}`);
    request.setRequestHeader("content-type", "application/octet-stream");
    request.upload.onprogress = ({ loaded, total }) => onSent(total > 0 ? loaded / total : 0);
    request.onload = () => resolve(answerFrom(request.status, parsed(request.responseText), words));
    request.onerror = () =>
      resolve({ ok: false, message: fill(words.notReceived, { why: words.unreachable }) });
    request.onabort = () => resolve({ ok: false, message: words.stopped });
    signal.addEventListener("abort", () => request.abort());
    request.send(file);
  });
}

/** A look through a mapping, or without one the first look again. */
export async function lookAgain(
  id: string,
  { mapping, signal, words }: { mapping: Mapping | null; signal?: AbortSignal; words: ServerWords },
): Promise<Answer<{ look: Look }>> {
  const address = `/api/intake/upload/${id}/look`;
  return mapping
    ? call(address, "POST", { body: { mapping }, signal, words })
    : call(address, "GET", { signal, words });
}

export function commit(id: string, body: CommitRequest, words: ServerWords): Promise<Answer<{ job: Job }>> {
  return call(`/api/intake/upload/${id}/commit`, "POST", { body, words });
}

export function discardFile(id: string, words: ServerWords): Promise<Answer<unknown>> {
  return call(`/api/intake/upload/${id}`, "DELETE", { words });
}

export function jobsNow(words: ServerWords): Promise<Answer<{ jobs: Job[] }>> {
  return call("/api/intake/jobs", "GET", { words });
}

export function cancel(jobId: string, words: ServerWords): Promise<Answer<{ job: Job }>> {
  return call(`/api/intake/jobs/${jobId}`, "DELETE", { words });
}

export function undo(intakeId: number, words: ServerWords): Promise<Answer<{ job: Job }>> {
  return call(`/api/intake/${intakeId}/undo`, "POST", { words });
}

export function featuresTouched(
  intakeId: number,
  words: ServerWords,
): Promise<Answer<{ features: TouchedFeature[] }>> {
  return call(`/api/intake/${intakeId}/features`, "GET", { words });
}

async function call<T>(
  address: string,
  method: "GET" | "POST" | "DELETE",
  { body, signal, words }: { body?: unknown; signal?: AbortSignal | undefined; words: ServerWords },
): Promise<Answer<T>> {
  try {
    const response = await fetch(address, {
      method,
      cache: "no-store",
      ...(signal && { signal }),
      ...(body !== undefined && {
        headers: { "content-type": "application/json" },
        body: JSON.stringify(body),
      }),
    });
    return answerFrom<T>(response.status, parsed(await response.text()), words);
  } catch {
    return { ok: false, message: words.unreachable };
  }
}

function answerFrom<T>(status: number, body: unknown, words: ServerWords): Answer<T> {
  if (status >= 200 && status < 300) return { ok: true, value: body as T };
  const said = (body as { message?: unknown } | null)?.message;
  const fallback = fill(words.fault, { status });
  return { ok: false, message: typeof said === "string" ? said : fallback };
}

function parsed(text: string): unknown {
  try {
    return text === "" ? null : JSON.parse(text);
  } catch {
    return null;
  }
}
