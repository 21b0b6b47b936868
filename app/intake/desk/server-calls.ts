import type { TouchedFeature } from "../../../db/queries/intakes";
import type { Mapping } from "../../../lib/intake/mapping";
import type { Job } from "../../jobs/job";
import type { Look, WaitingFile } from "../look";
import type { CommitRequest } from "../mapping-schema";

/** What the server answered, or the sentence that says why it did not. */
export type Answer<T> = { ok: true; value: T } | { ok: false; message: string };

const UNREACHABLE = "The server cannot be reached. Check the network and try again.";

/** Sends a file as it is, telling how much of it has gone. */
export function sendFile(
  file: File,
  { onSent, signal }: { onSent: (share: number) => void; signal: AbortSignal },
): Promise<Answer<{ file: WaitingFile; look: Look }>> {
  return new Promise((resolve) => {
    // fetch() does not tell how far a body has gone.
    const request = new XMLHttpRequest();
    request.open("POST", `/api/intake/upload?name=${encodeURIComponent(file.name)}`);
    request.setRequestHeader("content-type", "application/octet-stream");
    request.upload.onprogress = ({ loaded, total }) => onSent(total > 0 ? loaded / total : 0);
    request.onload = () => resolve(answerFrom(request.status, parsed(request.responseText)));
    request.onerror = () => resolve({ ok: false, message: `Nothing received: ${UNREACHABLE}` });
    request.onabort = () => resolve({ ok: false, message: "Nothing received: you stopped it." });
    signal.addEventListener("abort", () => request.abort());
    request.send(file);
  });
}

/** A look through a mapping, or without one the first look again. */
export async function lookAgain(
  id: string,
  { mapping, signal }: { mapping: Mapping | null; signal?: AbortSignal },
): Promise<Answer<{ look: Look }>> {
  const address = `/api/intake/upload/${id}/look`;
  return mapping ? call(address, "POST", { body: { mapping }, signal }) : call(address, "GET", { signal });
}

export function commit(id: string, body: CommitRequest): Promise<Answer<{ job: Job }>> {
  return call(`/api/intake/upload/${id}/commit`, "POST", { body });
}

export function discardFile(id: string): Promise<Answer<unknown>> {
  return call(`/api/intake/upload/${id}`, "DELETE", {});
}

export function jobsNow(): Promise<Answer<{ jobs: Job[] }>> {
  return call("/api/intake/jobs", "GET", {});
}

export function cancel(jobId: string): Promise<Answer<{ job: Job }>> {
  return call(`/api/intake/jobs/${jobId}`, "DELETE", {});
}

export function undo(intakeId: number): Promise<Answer<{ job: Job }>> {
  return call(`/api/intake/${intakeId}/undo`, "POST", {});
}

export function featuresTouched(intakeId: number): Promise<Answer<{ features: TouchedFeature[] }>> {
  return call(`/api/intake/${intakeId}/features`, "GET", {});
}

async function call<T>(
  address: string,
  method: "GET" | "POST" | "DELETE",
  { body, signal }: { body?: unknown; signal?: AbortSignal | undefined },
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
    return answerFrom<T>(response.status, parsed(await response.text()));
  } catch {
    return { ok: false, message: UNREACHABLE };
  }
}

function answerFrom<T>(status: number, body: unknown): Answer<T> {
  if (status >= 200 && status < 300) return { ok: true, value: body as T };
  const said = (body as { message?: unknown } | null)?.message;
  const fallback = `The server could not do this, through a fault of the program (${status}). Try again.`;
  return { ok: false, message: typeof said === "string" ? said : fallback };
}

function parsed(text: string): unknown {
  try {
    return text === "" ? null : JSON.parse(text);
  } catch {
    return null;
  }
}
