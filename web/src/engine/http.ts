// One request to the local server: every way it can end is an Outcome, never an exception. A request that gets no answer at
// all says so with the kind "away", which the state takes as "keep it and try again".
import type { Outcome, Problem } from "./calls";

export interface Answer {
  status: number;
  body: unknown;
}
export type Sent = { answered: true; answer: Answer } | { answered: false; why: "away" | "slow" | "cancelled" };

export interface Request {
  method?: "GET" | "POST" | "PUT" | "DELETE";
  json?: unknown;
  bytes?: Blob;
  signal?: AbortSignal | undefined;
  patience_ms?: number; // how long to wait for the answer
}

// What to say where the server said nothing itself.
export type ProblemWords = Record<Problem["kind"], string>;

export const usualPatience_ms = 15_000;

export async function send(address: string, request: Request = {}, fetcher: typeof fetch = fetch): Promise<Sent> {
  const { method = "GET", json, bytes, signal, patience_ms = usualPatience_ms } = request;
  const slow = AbortSignal.timeout(patience_ms);
  const init: RequestInit = { method, signal: signal ? AbortSignal.any([signal, slow]) : slow, cache: "no-store" };
  if (json !== undefined) {
    init.body = JSON.stringify(json);
    init.headers = { "Content-Type": "application/json" };
  } else if (bytes) {
    init.body = bytes;
    init.headers = { "Content-Type": "application/octet-stream" };
  } else if (method !== "GET") {
    // Asked for by the server of everything that changes something, so that no form on another site can.
    init.headers = { "Content-Type": "application/json" };
  }
  try {
    const response = await fetcher(address, init);
    const text = await response.text();
    return { answered: true, answer: { status: response.status, body: parsed(text) } };
  } catch {
    if (signal?.aborted) return { answered: false, why: "cancelled" };
    return { answered: false, why: slow.aborted ? "slow" : "away" };
  }
}

function parsed(text: string): unknown {
  if (text === "") return undefined;
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const kindOfStatus: Record<number, Problem["kind"]> = {
  403: "bad_input",
  404: "not_found",
  409: "conflict",
  413: "too_large",
  421: "bad_input",
  422: "bad_input",
  507: "storage",
};

// What is wrong, in the server's own words if it gave any; otherwise in those given here by kind.
export function problemsOf(sent: Sent, words: ProblemWords): Problem[] {
  if (!sent.answered) {
    if (sent.why === "cancelled") return [{ kind: "cancelled", where: "", what: words.cancelled }];
    return [{ kind: "away", where: "", what: words[sent.why === "slow" ? "slow" : "away"] }];
  }
  const { status, body } = sent.answer;
  if (isRecord(body) && Array.isArray(body.problems)) {
    const problems = body.problems.filter(isRecord).map((problem) => ({
      kind: problem.kind as Problem["kind"],
      where: String(problem.where ?? ""),
      what: String(problem.what ?? ""),
    }));
    if (problems.length > 0) return problems;
  }
  const kind = kindOfStatus[status] ?? "internal";
  return [{ kind, where: "", what: words[kind] }];
}

export function outcomeOf<T>(
  sent: Sent,
  words: ProblemWords,
  take: (body: Record<string, unknown>) => T | undefined,
): Outcome<T> {
  if (sent.answered && sent.answer.status < 400) {
    const body = sent.answer.body;
    // Of the engine's calls some problems come with status 200 where the answer was asked for whatever it is.
    if (isRecord(body) && !Array.isArray(body.problems)) {
      const value = take(body);
      if (value !== undefined) return { ok: true, value };
    } else if (sent.answer.status === 204 || body === undefined) {
      const value = take({});
      if (value !== undefined) return { ok: true, value };
    }
  }
  return { ok: false, problems: problemsOf(sent, words) };
}
