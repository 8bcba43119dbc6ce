// The engine's table answered by the local server.
import type { Call, EngineCalls } from "./calls";
import { outcomeOf, send } from "./http";
import type { ProblemWords } from "./http";

// How long each may take before the page stops waiting. The server goes on with nothing that nobody waits for.
const patience_ms: Record<keyof EngineCalls, number> = {
  checkRide: 60_000,
  planRide: 120_000,
  heatOfRide: 60_000,
  kitOfRide: 120_000,
  loadOfRide: 120_000,
  jobsOfRide: 120_000,
  sheetOfRide: 120_000,
  draftRide: 60_000,
  choices: 15_000,
};

export function serverCalls(words: ProblemWords, fetcher: typeof fetch = (...all) => fetch(...all)): Call {
  return async (name, request, signal) => {
    const { ride_id, ...rest } = request as { ride_id?: string };
    const address =
      ride_id === undefined ? `/api/v1/engine/${name}` : `/api/v1/rides/${encodeURIComponent(ride_id)}/engine/${name}`;
    const sent = await send(address, { method: "POST", json: rest, signal, patience_ms: patience_ms[name] }, fetcher);
    return outcomeOf(sent, words, (body) => body.value as EngineCalls[typeof name]["reply"] | undefined);
  };
}
