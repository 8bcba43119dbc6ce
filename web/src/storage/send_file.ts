// Sends a file and tells how far it is, which fetch cannot.
import type { Sent } from "../engine/http";

export function sendFile(address: string, file: File, progress: (share: number) => void, signal?: AbortSignal): Promise<Sent> {
  return new Promise((resolve) => {
    const request = new XMLHttpRequest();
    const end = (sent: Sent) => {
      signal?.removeEventListener("abort", cancel);
      resolve(sent);
    };
    const cancel = () => request.abort();
    request.open("PUT", address);
    request.setRequestHeader("Content-Type", "application/octet-stream");
    request.upload.onprogress = (event) => progress(event.total > 0 ? event.loaded / event.total : 0);
    request.onload = () => end({ answered: true, answer: { status: request.status, body: parsed(request.responseText) } });
    request.onerror = () => end({ answered: false, why: "away" });
    request.ontimeout = () => end({ answered: false, why: "slow" });
    request.onabort = () => end({ answered: false, why: "cancelled" });
    if (signal?.aborted) return end({ answered: false, why: "cancelled" });
    signal?.addEventListener("abort", cancel);
    request.send(file);
  });
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
