/** The class as the server knows it: its players, and its takes a page at a time. */
import type { ClassPlayer } from "../../server/contract/class.ts";
import type { TakePage } from "../../server/contract/takes.ts";
import { fetchJson } from "../shell/api.ts";

export const readClass = (): Promise<readonly ClassPlayer[]> =>
  fetchJson<{ players: ClassPlayer[] }>("/class").then((body) => body.players);

/** @param query as `listQuery` writes it */
export const readTakes = (query: string): Promise<TakePage> => fetchJson<TakePage>(`/takes?${query}`);
